#include "ui/jobs_page.h"

#include "ui/checkin_panel.h"
#include "ui/checkout_panel.h"
#include "ui/decant_panel.h"
#include "ui/desk.h"
#include "ui/pages.h"

#include <QBoxLayout>
#include <QTabWidget>

namespace tarebook {

JobsPage::JobsPage(Desk& desk, QWidget* parent)
    : Page(parent), m_tabs(new QTabWidget(this)), m_out(new CheckOutPanel(desk, this)),
      m_in(new CheckInPanel(desk, this)), m_decant(new DecantPanel(desk, this)) {
    setObjectName(QStringLiteral("jobsPage"));
    m_tabs->setObjectName(QStringLiteral("jobsTabs"));
    m_tabs->setDocumentMode(true);
    m_tabs->addTab(m_out, tr("Check &out"));
    m_tabs->addTab(m_in, tr("Check &in"));
    m_tabs->addTab(m_decant, tr("&Decant"));
    auto* column = new QVBoxLayout(this);
    const int line = fontMetrics().height();
    column->setContentsMargins(line, line / 2, line, line / 2);
    column->addWidget(m_tabs);
}

void JobsPage::refresh() {
    m_out->refresh();
    m_in->refresh();
    m_decant->refresh();
}

bool JobsPage::scan(const QString& text) {
    const QString tidy = text.trimmed();
    if (m_tabs->currentWidget() == m_in) {
        return m_in->scan(tidy);
    }
    return m_tabs->currentWidget() == m_decant ? m_decant->scan(tidy) : m_out->scan(tidy);
}

bool JobsPage::enter() {
    return m_tabs->currentWidget() == m_out && m_out->enter();
}

bool JobsPage::begin(Errand errand, const QString& subject) {
    switch (errand) {
    case Errand::checkOut:
        m_out->refresh();
        m_tabs->setCurrentWidget(m_out);
        m_out->addCylinder(subject);
        return true;
    case Errand::recover:
        m_out->refresh();
        m_tabs->setCurrentWidget(m_out);
        return m_out->scan(subject);
    case Errand::checkIn:
        m_in->refresh();
        m_tabs->setCurrentWidget(m_in);
        m_in->setCylinder(subject);
        return true;
    case Errand::decant:
        m_tabs->setCurrentWidget(m_decant);
        m_decant->setSource(subject);
        return true;
    default:
        return false;
    }
}

Page* makeJobsPage(Desk& desk) {
    return new JobsPage(desk);
}

} // namespace tarebook
