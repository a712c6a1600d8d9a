// Of the check-out: cylinders that go from technician to technician without coming back.
#include "ui/checkout_panel.h"

#include "ui/finding_view.h"
#include "ui/kit.h"

#include <QComboBox>
#include <QPushButton>

namespace tarebook {

namespace {

constexpr int kHandsOver = -1; // among the purposes, of which it is none

} // namespace

void CheckOutPanel::addHandOver() {
    m_purpose->addItem(tr("out already: to hand over"), kHandsOver);
}

bool CheckOutPanel::handsOver() const {
    return m_purpose->currentData().toInt() == kHandsOver;
}

HandOver CheckOutPanel::overPlan(const CheckOut& what) const {
    return {what.serials, what.person, what.job, what.occurred};
}

void CheckOutPanel::offerHandOver() {
    for (FindingCard* card : m_findings->cards()) {
        if (card->finding().rule != "plan.out") {
            continue;
        }
        auto* button = new QPushButton(tr("Hand it over"), card);
        button->setObjectName(QStringLiteral("outHandOver:") +
                              qt(card->finding().subject).section(QLatin1Char(':'), 1));
        button->setToolTip(tr("From technician to technician, without coming back to the shop"));
        card->addAction(button);
        connect(
            button, &QPushButton::clicked, this,
            [this] { m_purpose->setCurrentIndex(m_purpose->findData(kHandsOver)); }, Qt::QueuedConnection);
    }
}

} // namespace tarebook
