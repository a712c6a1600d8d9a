#include "ui/checkout_panel.h"

#include "core/shop/plan_margin.h"
#include "core/shop/recovery_method.h"
#include "ui/day_dialog.h"
#include "ui/desk.h"
#include "ui/finding_view.h"
#include "ui/kit.h"
#include "ui/mass_edit.h"
#include "ui/pickers.h"
#include "ui/typed_quantities.h"

#include <QBoxLayout>
#include <QCheckBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTableWidget>

namespace tarebook {

namespace {

constexpr std::size_t kMostShown = 60; // of each kind; any other is found by its number

QString methodCaption(Method method) {
    switch (method) {
    case Method::liquid:
        return QObject::tr("liquid");
    case Method::vapour:
        return QObject::tr("vapour");
    case Method::pushPull:
        return QObject::tr("push-pull");
    case Method::unsaid:
        break;
    }
    return QObject::tr("not said");
}

} // namespace

void CheckOutPanel::addMethod(QWidget* side) {
    m_method = new QComboBox(side);
    m_method->setObjectName(QStringLiteral("outMethod"));
    for (const Method method : {Method::unsaid, Method::liquid, Method::vapour, Method::pushPull}) {
        m_method->addItem(methodCaption(method), static_cast<int>(method));
    }
    m_burnOut = new QCheckBox(tr("&from a burn-out"), side);
    m_burnOut->setObjectName(QStringLiteral("outBurnOut"));
    m_burnOut->setToolTip(tr("Gas of a burn-out is acid: it goes into a cylinder kept for it"));
    m_margin = new QLineEdit(side);
    m_margin->setObjectName(QStringLiteral("outMargin"));
    m_margin->setPlaceholderText(tr("none; or 10 %, or 3 lb"));
    m_margin->setToolTip(
        tr("Common practice, no law asks for it: more can come out than the nameplate says."));
    m_ambient = new QLineEdit(side);
    m_ambient->setObjectName(QStringLiteral("outAmbient"));
    m_ambient->setPlaceholderText(tr("not said; or as 95 F"));
    m_ambient->setToolTip(tr("Temperature at the work: what level and pressure the cylinders have there"));
}

void CheckOutPanel::addProposal(QWidget* side, QBoxLayout& column) {
    auto* row = new QFormLayout;
    m_find = new QLineEdit(side);
    m_find->setObjectName(QStringLiteral("outFind"));
    m_find->setPlaceholderText(tr("part of a cylinder's number, to see why it goes or stays"));
    row->addRow(tr("Fi&nd"), m_find);
    column.addLayout(row);
    m_proposal = kit::table(QStringLiteral("outProposal"),
                            {tr("Cylinder"), tr("Room"), tr("Stop at"), tr("Why")}, side);
    m_proposal->setAccessibleName(tr("Proposal: what should go, and why the others stay"));
    kit::showRows(m_proposal, 7);
    column.addWidget(m_proposal, 1);
    m_why = kit::hint({}, side);
    m_why->setObjectName(QStringLiteral("outWhy"));
    m_why->setAccessibleName(tr("Why the cylinder goes or stays"));
    m_why->hide();
    column.addWidget(m_why);
    connect(m_find, &QLineEdit::textChanged, this, &CheckOutPanel::listProposal);
    connect(m_proposal, &QTableWidget::currentCellChanged, this, &CheckOutPanel::showWhy);
}

Method CheckOutPanel::method() const {
    return purpose() == Purpose::recover ? static_cast<Method>(m_method->currentData().toInt())
                                         : Method::unsaid;
}

bool CheckOutPanel::burnOut() const {
    return purpose() == Purpose::recover && m_burnOut->isChecked();
}

void CheckOutPanel::planDay() {
    auto* day = new DayDialog(m_desk, window());
    day->setAttribute(Qt::WA_DeleteOnClose);
    day->show();
}

void CheckOutPanel::showProposal() {
    m_answer = {};
    m_proposed.clear();
    m_take->setEnabled(false);
    listProposal();
    const QString system = chosenIn(*m_system);
    const QString refrigerant = m_refrigerant->text().trimmed();
    if ((system.isEmpty() && refrigerant.isEmpty()) || !m_expected->mass() || purpose() == Purpose::carry) {
        m_proposalNote->setText(tr("Name the system, or the refrigerant, and what you expect."));
        return;
    }
    JobPlan plan;
    plan.purpose = purpose();
    plan.system = utf8(system);
    plan.refrigerant = utf8(refrigerant);
    plan.expected = *m_expected->mass();
    plan.method = method();
    plan.burnOut = burnOut();
    const auto margin = readMargin(m_desk.shop(), utf8(m_margin->text()), plan.expected);
    if (!margin) {
        m_proposalNote->setText(tr("Room to spare: %1").arg(qt(margin.error().text())));
        return;
    }
    plan.margin = margin.value();
    if (!m_ambient->text().trimmed().isEmpty()) {
        const auto ambient =
            readTemperature(m_ambient->text().trimmed(), m_desk.shop().settings().temperature);
        if (!ambient) {
            m_proposalNote->setText(tr("Ambient: %1").arg(qt(ambient.error().text())));
            return;
        }
        plan.ambient = ambient.value();
    }
    QString wrong;
    plan.back = this->plan(wrong).back;
    auto proposal = propose(m_desk.shop(), plan);
    if (!proposal) {
        m_proposalNote->setText(qt(proposal.error().text()));
        return;
    }
    m_answer = std::move(proposal).value();
    for (const Candidate& candidate : m_answer.chosen) {
        m_proposed.append(qt(candidate.serial));
    }
    listProposal();
    QString note = !m_answer.problem.empty() ? qt(m_answer.problem)
                   : m_answer.refused()      ? tr("Not to be done so: see what speaks against it.")
                                             : tr("Proposed: %1").arg(m_proposed.join(QStringLiteral(", ")));
    const auto hidden = [&](std::size_t count) { return count - std::min(kMostShown, count); };
    const std::size_t more = hidden(m_answer.others.size());
    const std::size_t staying = hidden(m_answer.leftOut.size());
    if (more + staying > 0) {
        note += tr(" (not listed: %1 more would do, %2 more stay; find one by its number to see why)")
                    .arg(more)
                    .arg(staying);
    }
    m_proposalNote->setText(note);
    m_take->setEnabled(!m_proposed.isEmpty() && !m_answer.refused());
}

void CheckOutPanel::showPlanFindings() {
    std::vector<Finding> shown = m_answer.findings;
    std::erase_if(shown, [this](const Finding& finding) {
        return finding.subject.starts_with("cylinder:") &&
               m_serials.contains(qt(finding.subject).section(QLatin1Char(':'), 1));
    });
    m_planFindings->setFindings(shown);
    for (FindingCard* card : m_planFindings->cards()) {
        if (card->finding().rule == "plan.method") {
            card->setOpened(true); // steps are there to be read
        }
    }
}

void CheckOutPanel::listProposal() {
    m_proposal->setRowCount(0);
    const bool charge = purpose() == Purpose::charge;
    m_proposal->setHorizontalHeaderLabels({tr("Cylinder"), charge ? tr("Inside") : tr("Room"),
                                           charge ? tr("Charged at gross") : tr("Stop at"), tr("Why")});
    const QString looked = m_find->text().trimmed();
    // Of each list the first so many that are looked for.
    const auto list = [&](const auto& all, const auto& add) {
        std::size_t shown = 0;
        for (auto one = all.begin(); one != all.end() && shown < kMostShown; ++one) {
            if (qt(one->serial).contains(looked, Qt::CaseInsensitive)) {
                add(*one);
                ++shown;
            }
        }
    };
    list(m_answer.chosen, [this](const Candidate& one) { addCandidate(one, true); });
    list(m_answer.others, [this](const Candidate& one) { addCandidate(one, false); });
    list(m_answer.leftOut, [this](const LeftOut& one) { addLeftOut(one); });
    kit::fitColumns(m_proposal, 3);
    showWhy();
}

void CheckOutPanel::addCandidate(const Candidate& candidate, bool chosen) {
    const Display display = m_desk.shop().display();
    const int row = m_proposal->rowCount();
    m_proposal->insertRow(row);
    auto* item = kit::cell(m_proposal, row, 0, qt(candidate.serial));
    QFont font = item->font();
    font.setBold(chosen);
    item->setFont(font);
    const bool charge = purpose() == Purpose::charge;
    if (!candidate.limitKnown) {
        kit::cell(m_proposal, row, 1, tr("not known"), true);
        kit::cell(m_proposal, row, 2, tr("not known"), true);
        addCandidateNote(row, candidate, chosen);
        return;
    }
    kit::cell(m_proposal, row, 1, qt(charge ? display.mass(candidate.room) : display.limit(candidate.room)),
              true);
    kit::cell(m_proposal, row, 2,
              charge ? tr("%1 (now %2)")
                           .arg(qt(display.mass(candidate.grossToStop)), qt(display.mass(candidate.grossNow)))
                     : qt(display.limit(candidate.grossToStop)),
              true);
    addCandidateNote(row, candidate, chosen);
}

void CheckOutPanel::addCandidateNote(int row, const Candidate& candidate, bool chosen) {
    const QString note = candidate.atAmbient.empty()
                             ? qt(candidate.note)
                             : tr("%1; %2").arg(qt(candidate.note), qt(candidate.atAmbient));
    kit::cell(m_proposal, row, 3, chosen ? tr("Take it: %1").arg(note) : tr("would do: %1").arg(note));
}

void CheckOutPanel::addLeftOut(const LeftOut& left) {
    const int row = m_proposal->rowCount();
    m_proposal->insertRow(row);
    kit::cell(m_proposal, row, 0, qt(left.serial));
    kit::cell(m_proposal, row, 3, tr("stays: %1").arg(qt(left.reason)));
}

void CheckOutPanel::showWhy() {
    const int row = m_proposal->currentRow();
    m_why->setText(row < 0
                       ? QString()
                       : tr("%1 %2").arg(m_proposal->item(row, 0)->text(), m_proposal->item(row, 3)->text()));
    m_why->setVisible(row >= 0);
}

void CheckOutPanel::takeProposal() {
    for (const QString& serial : m_proposed) {
        addCylinder(serial);
    }
}

} // namespace tarebook
