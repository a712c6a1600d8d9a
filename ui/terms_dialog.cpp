#include "ui/terms_dialog.h"

#include "core/shop/exchange_offer.h"
#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/questions.h"

#include <QBoxLayout>
#include <QCheckBox>
#include <QComboBox>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScreen>
#include <QScrollArea>

#include <algorithm>

#include <fmt/format.h>

namespace tarebook {
namespace {

constexpr double kPartsInPercent = 10'000; // of a million

QString money(const std::optional<Hundredths>& amount) {
    return amount ? qt(moneyText(*amount)) : QString();
}

/// With its underlined letter, so that a person at the keyboard need not pass all the others.
QString captionOf(GasKind kind) {
    switch (kind) {
    case GasKind::unknown:
        return TermsDialog::tr("&Unknown gas");
    case GasKind::burnOut:
        return TermsDialog::tr("&Burn-out");
    case GasKind::flammable:
        return TermsDialog::tr("F&lammable");
    case GasKind::mixed:
        return TermsDialog::tr("&Mixed");
    case GasKind::clean:
        return TermsDialog::tr("Clean, &one gas");
    }
    return {};
}

} // namespace

TermsDialog::TermsDialog(Desk& desk, const QString& reclaimer, QWidget* parent)
    : QDialog(parent), m_desk(desk), m_reclaimer(reclaimer), m_problem(new QLabel(this)) {
    setObjectName(QStringLiteral("termsDialog"));
    setWindowTitle(tr("Terms of %1").arg(reclaimer));
    if (auto known = termsOf(desk.shop(), utf8(reclaimer))) {
        m_terms = std::move(known).value();
    }
    auto* inside = new QWidget(this);
    auto* form = new QFormLayout(inside);
    form->setRowWrapPolicy(QFormLayout::WrapLongRows);
    const Display display = desk.shop().display();
    addField(form, tr("Mi&nimum of a batch, net"), "minimum",
             m_terms.minimum ? qt(display.mass(*m_terms.minimum)) : QString(), QStringLiteral("100 lb"));
    addField(form, tr("M&ixed from, by mass"), "mixed-from",
             m_terms.mixedFrom
                 ? qt(fmt::format("{:g} %", static_cast<double>(*m_terms.mixedFrom) / kPartsInPercent))
                 : QString(),
             QStringLiteral("2 %"));
    addField(form, tr("Curr&ency of all amounts"), "currency", qt(m_terms.currency), QStringLiteral("USD"));
    addField(form, tr("&Fee of a batch"), "fee", money(m_terms.fee), QStringLiteral("25.00"));
    addField(form, tr("Fee of &a cylinder"), "fee-each", money(m_terms.feeEach), QStringLiteral("1.50"));
    addKinds(form);
    addExchange(form);
    auto* scroll = new QScrollArea(this);
    scroll->setWidget(inside);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    m_problem->setObjectName(QStringLiteral("termsProblem"));
    m_problem->setWordWrap(true);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel, this);
    auto* keep = buttons->addButton(tr("Enter the terms"), QDialogButtonBox::ActionRole);
    keep->setObjectName(QStringLiteral("termsEnter"));
    kit::makePrimary(keep);
    connect(keep, &QPushButton::clicked, this, &TermsDialog::enter);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    auto* column = new QVBoxLayout(this);
    column->addWidget(kit::hint(tr("As they stand on the reclaimer's paper. A blank is a term that is not "
                                   "known: nothing stands in for it. A charge is a price below zero."),
                                this));
    column->addWidget(scroll, 1);
    column->addWidget(m_problem);
    column->addWidget(buttons);
    const int line = fontMetrics().height();
    resize(QSize(line * 34, line * 32).boundedTo(screen()->availableSize()));
    follow();
}

void TermsDialog::addField(QFormLayout* form, const QString& caption, const std::string& term,
                           const QString& value, const QString& example) {
    auto* edit = new QLineEdit(value, this);
    edit->setObjectName(QStringLiteral("terms:") + qt(term));
    edit->setPlaceholderText(tr("not known; as %1").arg(example));
    edit->setAccessibleName(QString(caption).remove(QLatin1Char('&')));
    form->addRow(caption, edit);
    m_fields.push_back({term, edit, value});
    connect(edit, &QLineEdit::textChanged, this, &TermsDialog::follow);
}

void TermsDialog::addKinds(QFormLayout* form) {
    for (const GasKind kind : kGasKinds) {
        const QString word = qt(std::string(gasKindWord(kind)));
        const QString caption = captionOf(kind);
        const QString plain = QString(caption).remove(QLatin1Char('&'));
        auto* box = new QComboBox(this);
        box->setObjectName(QStringLiteral("termsAccept:") + word);
        box->setAccessibleName(tr("How %1 is taken").arg(plain));
        box->addItem(tr("not known"));
        for (const Acceptance one : {Acceptance::taken, Acceptance::apart, Acceptance::refused}) {
            if (kind != GasKind::clean || one != Acceptance::apart) {
                box->addItem(qt(std::string(acceptanceWord(one))), static_cast<int>(one));
            }
        }
        if (const auto known = m_terms.accepts.find(kind); known != m_terms.accepts.end()) {
            box->setCurrentIndex(box->findData(static_cast<int>(known->second)));
        }
        m_accepts[kind] = box;
        connect(box, &QComboBox::currentIndexChanged, this, &TermsDialog::follow);
        const auto price = m_terms.prices.find(kind);
        const QString value = price == m_terms.prices.end() ? QString() : qt(price->second.text());
        auto* edit = new QLineEdit(value, this);
        edit->setObjectName(QStringLiteral("termsPrice:") + word);
        edit->setPlaceholderText(tr("as 4.50/kg"));
        edit->setAccessibleName(tr("Price of %1").arg(plain));
        m_fields.push_back({"price " + utf8(word), edit, value});
        connect(edit, &QLineEdit::textChanged, this, &TermsDialog::follow);
        auto* row = new QHBoxLayout;
        row->addWidget(box);
        row->addWidget(edit, 1);
        auto* label = new QLabel(caption, this);
        label->setBuddy(box);
        form->addRow(label, row);
    }
}

void TermsDialog::addExchange(QFormLayout* form) {
    const Display display = m_desk.shop().display();
    const ExchangeTerms& its = m_terms.exchange;
    m_exchange = new QComboBox(this);
    m_exchange->setObjectName(QStringLiteral("termsExchange"));
    m_exchange->setAccessibleName(tr("Empty in exchange for a full cylinder"));
    m_exchange->addItems({tr("not known"), tr("given"), tr("none: it comes back emptied")});
    m_exchange->setCurrentIndex(!its.given ? 0 : *its.given ? 1 : 2);
    form->addRow(tr("Empty in e&xchange"), m_exchange);
    const auto lines = exchangeLines(display, m_terms);
    const auto said = [&](const char* line) {
        const auto found =
            std::find_if(lines.begin(), lines.end(), [&](const auto& one) { return one.first == line; });
        return found == lines.end() || found->second == "any" ? QString() : qt(found->second);
    };
    addField(form, tr("Fee of an exchan&ge"), "exchange-fee", money(its.fee), QStringLiteral("12.00"));
    addField(form, tr("For whose c&ylinders"), "exchange-owners", said("exchange, owners"),
             QStringLiteral("own, reclaimer"));
    addField(form, tr("For which si&zes"), "exchange-sizes", said("exchange, water capacity"),
             QStringLiteral("26.2 lb to 123 lb"));
    m_inDate = new QCheckBox(tr("Only for one within its &retest"), this);
    m_inDate->setObjectName(QStringLiteral("termsInDate"));
    m_inDate->setChecked(its.inDate);
    form->addRow(QString(), m_inDate);
    for (const Field& field : m_fields) {
        if (field.term == "exchange-owners" || field.term == "exchange-sizes") {
            field.edit->setPlaceholderText(tr("any; as %1")
                                               .arg(field.term == "exchange-owners"
                                                        ? QStringLiteral("own, reclaimer")
                                                        : QStringLiteral("26.2 lb to 123 lb")));
        }
    }
    connect(m_exchange, &QComboBox::currentIndexChanged, this, &TermsDialog::follow);
    connect(m_inDate, &QCheckBox::toggled, this, &TermsDialog::follow);
}

bool TermsDialog::exchanges() const {
    return m_exchange->currentIndex() == 1;
}

Result<AcceptanceTerms> TermsDialog::typed() const {
    AcceptanceTerms terms = m_terms;
    if (exchanges()) {
        terms.exchange.given = true;
        terms.exchange.inDate = m_inDate->isChecked();
    } else { // a fee and limits belong to an empty that is given
        terms.exchange = {};
        terms.exchange.given = m_exchange->currentIndex() == 0 ? std::nullopt : std::optional(false);
    }
    for (const Field& field : m_fields) {
        const QString text = field.edit->text().trimmed();
        if (text == field.before || (isExchangeTerm(field.term) && !exchanges())) {
            continue; // shown to a tenth, kept to the milligram
        }
        const std::string value = text.isEmpty() ? std::string(kNotKnown) : utf8(text);
        const bool price = field.term.starts_with("price ");
        const auto read =
            price ? readTerm(m_desk.shop(), "price",
                             field.term.substr(std::string_view("price ").size()) + "=" + value, terms)
                  : readTerm(m_desk.shop(), field.term, value, terms);
        if (!read) {
            return read.error();
        }
    }
    for (const auto& [kind, box] : m_accepts) {
        if (box->currentIndex() == 0) {
            terms.accepts.erase(kind);
        } else {
            terms.accepts[kind] = static_cast<Acceptance>(box->currentData().toInt());
        }
    }
    const auto sound = AcceptanceTerms::from(terms.body());
    return sound ? Result<AcceptanceTerms>(terms) : sound.error();
}

void TermsDialog::follow() {
    for (const Field& field : m_fields) {
        if (isExchangeTerm(field.term)) {
            field.edit->setEnabled(exchanges());
        }
    }
    m_inDate->setEnabled(exchanges());
    const auto terms = typed();
    m_problem->setText(terms ? QString() : qt(terms.error().text()));
}

void TermsDialog::enter() {
    const auto terms = typed();
    if (!terms) {
        questions::tell(this, tr("Not yet"), qt(terms.error().text()));
        return;
    }
    if (terms.value() == m_terms) {
        reject(); // nothing has changed: nothing is written
        return;
    }
    const Recorded recorded = setTerms(m_desk.shop(), utf8(m_reclaimer), terms.value(), m_terms);
    m_desk.notifyRecorded(recorded);
    if (!recorded.ok()) {
        questions::tell(this, tr("Not entered"), kit::told(recorded, tr("Not entered")));
        return;
    }
    m_desk.say(tr("Terms of %1 entered").arg(m_reclaimer));
    accept();
}

} // namespace tarebook
