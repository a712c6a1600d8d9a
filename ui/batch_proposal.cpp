#include "ui/batch_proposal.h"

#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/pickers.h"
#include "ui/questions.h"
#include "ui/returns_page.h"
#include "ui/terms_dialog.h"
#include "ui/working_dialog.h"

#include <QCheckBox>
#include <QComboBox>
#include <QCoreApplication>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QStringList>
#include <QTableWidget>

#include <algorithm>

namespace tarebook {

namespace {

constexpr qsizetype kMostNamed = 4;

QString tr(const char* text) {
    return QCoreApplication::translate("BatchProposal", text);
}

QString listed(QStringList items, const QString& between) {
    const qsizetype more = items.size() - kMostNamed;
    if (more > 0) {
        items.erase(items.begin() + kMostNamed, items.end());
        items << tr("and %1 more").arg(more);
    }
    return items.join(between);
}

QString carried(const BatchPlan& plan, const Display& display) {
    const QString count =
        plan.serials.size() == 1 ? tr("1 cylinder") : tr("%1 cylinders").arg(plan.serials.size());
    return tr("%1, %2 net, %3 gross").arg(count, qt(display.mass(plan.net)), qt(display.mass(plan.gross)));
}

QString decantsText(const BatchPlan& plan, const Display& display) {
    QStringList steps;
    for (const PlannedDecant& step : plan.decants) {
        steps << tr("%1 from %2 into %3").arg(qt(display.mass(step.mass)), qt(step.from), qt(step.to));
    }
    return tr("Decanted first, %1: %2.").arg(carried(plan, display), listed(steps, QStringLiteral("; ")));
}

/// What may go by law but does not go along; the list above says why the others stay.
QString staysText(const BatchProposal& proposal) {
    QStringList stays;
    for (const StaysHere& one : proposal.stays) {
        if (one.byTerms) {
            stays << QStringLiteral("%1: %2").arg(qt(one.serial), qt(one.reason));
        }
    }
    return listed(stays, QStringLiteral(" "));
}

} // namespace

QString proposalText(const BatchProposal& proposal, const Display& display) {
    QStringList lines;
    const QString kinds = proposal.kinds.empty() ? QString() : tr(", a batch of %1").arg(qt(proposal.kinds));
    QString first =
        tr("For %1%2: %3.").arg(qt(proposal.reclaimer), kinds, carried(proposal.asTheyStand, display));
    if (proposal.credit) {
        first +=
            QLatin1Char(' ') +
            tr("Credit after fees %1 %2.").arg(qt(moneyText(*proposal.credit)), qt(proposal.terms.currency));
    }
    if (!proposal.problem.empty()) {
        first += QLatin1Char(' ') + qt(proposal.problem);
    }
    lines << first;
    if (proposal.consolidated) {
        lines << decantsText(*proposal.consolidated, display);
    }
    if (!proposal.empties.empty()) {
        QStringList empties;
        for (const std::string& serial : proposal.empties) {
            empties << qt(serial);
        }
        lines << tr("Empties of theirs that go along: %1.").arg(listed(empties, QStringLiteral(", ")));
    }
    QStringList exchange;
    for (const std::string& sentence : proposal.exchange) {
        exchange << qt(sentence);
    }
    if (!exchange.isEmpty()) {
        lines << listed(exchange, QStringLiteral(" "));
    }
    QStringList advice;
    for (const std::string& sentence : proposal.advice) {
        advice << qt(sentence);
    }
    if (!advice.isEmpty()) {
        lines << listed(advice, QStringLiteral("\n"));
    }
    if (const QString stays = staysText(proposal); !stays.isEmpty()) {
        lines << stays;
    }
    return lines.join(QLatin1Char('\n'));
}

void ReturnsPage::propose() {
    refresh();
    const auto proposal =
        composeBatch(m_desk.shop(), {utf8(chosenIn(*m_reclaimer)), {}, 0, {}, m_empties->isChecked()});
    m_proposal->setText(proposal ? proposalText(proposal.value(), m_desk.shop().display())
                                 : qt(proposal.error().text()));
    m_proposal->show();
    m_proposalSide->show();
    if (!proposal) {
        return;
    }
    m_proposed = proposal.value();
    m_working->setEnabled(!proposal.value().lines.empty());
    std::vector<std::string> goes = proposal.value().asTheyStand.serials;
    goes.insert(goes.end(), proposal.value().empties.begin(), proposal.value().empties.end());
    std::sort(goes.begin(), goes.end());
    {
        const QSignalBlocker quiet(m_candidates);
        for (int row = 0; row < m_candidates->rowCount(); ++row) {
            QTableWidgetItem* item = m_candidates->item(row, 0);
            if ((item->flags() & Qt::ItemIsUserCheckable) != 0) {
                item->setCheckState(std::binary_search(goes.begin(), goes.end(), utf8(item->text()))
                                        ? Qt::Checked
                                        : Qt::Unchecked);
            }
        }
    }
    followChoice();
}

void ReturnsPage::showWorking() {
    if (m_proposed) {
        WorkingDialog(*m_proposed, m_desk.shop().display(), this).exec();
    }
}

void ReturnsPage::changeTerms() {
    const QString reclaimer = chosenIn(*m_reclaimer);
    const auto known = termsOf(m_desk.shop(), utf8(reclaimer));
    if (!known) {
        questions::tell(this, tr("Whose terms?"), qt(known.error().text()));
        return;
    }
    TermsDialog(m_desk, reclaimer, this).exec();
}

} // namespace tarebook
