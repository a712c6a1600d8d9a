#include "ui/checkout_panel.h"
#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/mass_edit.h"
#include "ui/pickers.h"

#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTableWidget>

namespace tarebook {

void CheckOutPanel::showProposal() {
    m_proposal->setRowCount(0);
    m_proposed.clear();
    m_take->setEnabled(false);
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
    QString wrong;
    plan.back = this->plan(wrong).back;
    const auto proposal = propose(m_desk.shop(), plan);
    if (!proposal) {
        m_proposalNote->setText(qt(proposal.error().text()));
        return;
    }
    const Display display = m_desk.shop().display();
    const auto add = [&](const Candidate& candidate, bool chosen) {
        const int row = m_proposal->rowCount();
        m_proposal->insertRow(row);
        auto* item = kit::cell(m_proposal, row, 0, qt(candidate.serial));
        QFont font = item->font();
        font.setBold(chosen);
        item->setFont(font);
        kit::cell(m_proposal, row, 1, qt(display.limit(candidate.room)), true);
        kit::cell(m_proposal, row, 2, qt(display.limit(candidate.grossToStop)), true);
        kit::cell(m_proposal, row, 3,
                  chosen ? tr("Take it: %1").arg(qt(candidate.note))
                         : tr("would do: %1").arg(qt(candidate.note)));
    };
    constexpr std::size_t kMostShown = 60;
    for (const Candidate& candidate : proposal.value().chosen) {
        add(candidate, true);
        m_proposed.append(qt(candidate.serial));
    }
    for (std::size_t place = 0; place < std::min(kMostShown, proposal.value().others.size()); ++place) {
        add(proposal.value().others[place], false);
    }
    for (std::size_t place = 0; place < std::min(kMostShown, proposal.value().leftOut.size()); ++place) {
        const LeftOut& left = proposal.value().leftOut[place];
        const int row = m_proposal->rowCount();
        m_proposal->insertRow(row);
        kit::cell(m_proposal, row, 0, qt(left.serial));
        kit::cell(m_proposal, row, 3, tr("stays: %1").arg(qt(left.reason)));
    }
    kit::fitColumns(m_proposal, 3);
    QString note = proposal.value().problem.empty()
                       ? tr("Proposed: %1").arg(m_proposed.join(QStringLiteral(", ")))
                       : qt(proposal.value().problem);
    const auto hidden = [&](std::size_t count) { return count - std::min(kMostShown, count); };
    const std::size_t more = hidden(proposal.value().others.size());
    const std::size_t staying = hidden(proposal.value().leftOut.size());
    if (more + staying > 0) {
        note +=
            tr(" (not listed: %1 more would do, %2 more stay; scan one to see why)").arg(more).arg(staying);
    }
    m_proposalNote->setText(note);
    m_take->setEnabled(!m_proposed.isEmpty());
}

void CheckOutPanel::takeProposal() {
    for (const QString& serial : m_proposed) {
        addCylinder(serial);
    }
}

} // namespace tarebook
