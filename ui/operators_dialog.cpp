#include "ui/operators_dialog.h"

#include "core/shop/operators.h"
#include "core/store/passphrase.h"
#include "ui/desk.h"
#include "ui/facts_dialog.h"
#include "ui/kit.h"
#include "ui/questions.h"

#include <QDialogButtonBox>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>

namespace tarebook {
namespace {

const auto kName = QStringLiteral("name");
const auto kRole = QStringLiteral("role");
const auto kPassphrase = QStringLiteral("passphrase");
const auto kAgain = QStringLiteral("again");
constexpr int kRows = 6;

Fact roleFact(const QString& current, bool managerOnly) {
    Fact fact{kRole, QObject::tr("&Role"), {}, Fact::Kind::choice};
    for (const auto& [role, shown] :
         {std::pair{Role::manager, QObject::tr("manager: everything")},
          {Role::storekeeper, QObject::tr("storekeeper: all but settings, operators, settling, retiring")},
          {Role::technician, QObject::tr("technician: check out, check in, weigh their own")},
          {Role::auditor, QObject::tr("auditor: reads only")}}) {
        if (role == Role::manager || !managerOnly) {
            fact.choices.emplace_back(shown, qt(std::string(roleWord(role))));
        }
    }
    fact.value = current;
    return fact;
}

std::vector<Fact> passphraseFacts() {
    return {{kPassphrase, QObject::tr("&Passphrase"), {}, Fact::Kind::secret},
            {kAgain, QObject::tr("The same a&gain"), {}, Fact::Kind::secret}};
}

QString passphraseProblem(const Facts& facts) {
    const auto acceptable = acceptablePassphrase(utf8(facts.at(kPassphrase)));
    if (facts.at(kPassphrase).isEmpty()) {
        return QObject::tr("Eight characters at least; several words that nobody would guess together.");
    }
    if (!acceptable) {
        return qt(acceptable.error().text());
    }
    return facts.at(kPassphrase) == facts.at(kAgain) ? QString() : QObject::tr("The two differ.");
}

} // namespace

void askNewPassphrase(Desk& desk, QWidget* parent, const QString& name) {
    FactsAsked asked;
    asked.title = QObject::tr("Passphrase of %1").arg(name);
    asked.explanation =
        QObject::tr("The books will say that it was changed and by whom, never what it is. Nobody can read "
                    "it back: a manager can only set another.");
    asked.facts = passphraseFacts();
    asked.yes = QObject::tr("Change");
    asked.problem = passphraseProblem;
    const auto facts = questions::askFacts(parent, asked);
    if (!facts) {
        return;
    }
    const Recorded recorded = changePassphrase(desk.shop(), utf8(name), utf8(facts->at(kPassphrase)));
    desk.notifyLasting(recorded);
    if (recorded.ok()) {
        desk.say(QObject::tr("New passphrase of %1").arg(name));
    } else {
        questions::tell(parent, QObject::tr("Not changed"), kit::told(recorded, QObject::tr("Not changed")));
    }
}

OperatorsDialog::OperatorsDialog(Desk& desk, const Clock& clock, QWidget* parent)
    : QDialog(parent), m_desk(desk), m_clock(clock),
      m_list(kit::table(QStringLiteral("operators"), {tr("Name"), tr("Role"), tr("Wrong tries")}, this)),
      m_hint(kit::hint({}, this)) {
    setObjectName(QStringLiteral("operatorsDialog"));
    setWindowTitle(tr("Who signs in"));
    m_hint->setObjectName(QStringLiteral("operatorsHint"));
    kit::showRows(m_list, kRows);
    auto* acts = new QHBoxLayout;
    const auto button = [&](const QString& text, const char* name, auto slot) {
        auto* made = new QPushButton(text, this);
        made->setObjectName(QLatin1String(name));
        connect(made, &QPushButton::clicked, this, slot);
        acts->addWidget(made);
        return made;
    };
    kit::makePrimary(button(tr("&Add…"), "operatorAdd", &OperatorsDialog::add));
    m_role = button(tr("&Role…"), "operatorRole", &OperatorsDialog::changeRole);
    m_passphrase = button(tr("&Passphrase…"), "operatorPassphrase", &OperatorsDialog::changePassphrase);
    m_remove = button(tr("Re&move"), "operatorRemove", &OperatorsDialog::remove);
    acts->addStretch(1);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close, this);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    auto* column = new QVBoxLayout(this);
    column->addWidget(m_hint);
    column->addWidget(m_list, 1);
    column->addLayout(acts);
    column->addWidget(buttons);
    connect(m_list, &QTableWidget::itemSelectionChanged, this, [this] {
        for (QPushButton* one : {m_role, m_passphrase, m_remove}) {
            one->setEnabled(!selected().isEmpty());
        }
    });
    refresh();
    const int line = fontMetrics().height();
    resize(line * 40, sizeHint().height());
}

QString OperatorsDialog::selected() const {
    const int row = m_list->currentRow();
    return row < 0 ? QString() : m_list->item(row, 0)->text();
}

void OperatorsDialog::refresh() {
    const auto all = m_desk.shop().store().operators();
    m_list->setRowCount(0);
    for (const Operator& one : all ? all.value() : std::vector<Operator>()) {
        const int row = m_list->rowCount();
        m_list->insertRow(row);
        kit::cell(m_list, row, 0, qt(one.name));
        kit::cell(m_list, row, 1, qt(std::string(roleWord(one.role))));
        kit::cell(m_list, row, 2, QString::number(one.wrongTries), true);
    }
    kit::fitColumns(m_list, 0);
    const bool none = m_list->rowCount() == 0;
    m_hint->setText(
        none ? tr("Nobody signs in to this shop: whoever opens it may write. Add a manager first; from then "
                  "on every entry carries who made it. Keep that passphrase: it cannot be read back.")
             : tr("A technician's name must be the one that cylinders are handed out to. Whoever can read "
                  "the file itself can copy or replace it: docs/who-did-it.md says what this protects."));
    if (!none) {
        m_list->selectRow(0);
    }
    for (QPushButton* one : {m_role, m_passphrase, m_remove}) {
        one->setEnabled(!none);
    }
}

void OperatorsDialog::follow(const Recorded& recorded) {
    m_desk.notifyLasting(recorded);
    refresh();
    if (!recorded.ok()) {
        questions::tell(this, tr("Not entered"), kit::told(recorded, tr("Not entered")));
    }
}

void OperatorsDialog::add() {
    const bool first = m_list->rowCount() == 0;
    FactsAsked asked;
    asked.title = first ? tr("The first manager") : tr("Another who signs in");
    asked.explanation = tr("The name as it shall stand in the books.");
    asked.facts = {{kName, tr("&Name"), {}},
                   roleFact(first ? QStringLiteral("manager") : QStringLiteral("technician"), first)};
    for (Fact& fact : passphraseFacts()) {
        asked.facts.push_back(std::move(fact));
    }
    asked.yes = tr("Add");
    asked.problem = [](const Facts& facts) {
        return facts.at(kName).isEmpty() ? tr("Type the name.") : passphraseProblem(facts);
    };
    const auto facts = questions::askFacts(this, asked);
    if (!facts) {
        return;
    }
    Shop& shop = m_desk.shop();
    const std::string name = utf8(facts->at(kName));
    const std::string passphrase = utf8(facts->at(kPassphrase));
    const auto role = roleFrom(utf8(facts->at(kRole)));
    if (!role) {
        return;
    }
    const Recorded recorded = addOperator(shop, name, role.value(), passphrase);
    if (recorded.ok() && first && signIn(shop, name, passphrase, m_clock.now())) {
        emit signedIn();
    }
    follow(recorded);
}

void OperatorsDialog::changeRole() {
    const QString name = selected();
    FactsAsked asked;
    asked.title = tr("Role of %1").arg(name);
    asked.explanation = tr("It holds from the next entry on, in every open window.");
    asked.facts = {roleFact(m_list->item(m_list->currentRow(), 1)->text(), false)};
    asked.yes = tr("Change");
    const auto facts = questions::askFacts(this, asked);
    const auto role = facts ? roleFrom(utf8(facts->at(kRole))) : Result<Role>(Error{});
    if (role) {
        follow(tarebook::changeRole(m_desk.shop(), utf8(name), role.value()));
    }
}

void OperatorsDialog::changePassphrase() {
    askNewPassphrase(m_desk, this, selected());
    refresh();
}

void OperatorsDialog::remove() {
    const QString name = selected();
    if (questions::ask(this, tr("Remove %1").arg(name),
                       tr("%1 no longer signs in. What they wrote keeps their name.").arg(name),
                       tr("Remove"))) {
        follow(removeOperator(m_desk.shop(), utf8(name)));
    }
}

} // namespace tarebook
