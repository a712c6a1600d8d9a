#pragma once

#include "ui/page.h"

class QTabWidget;

namespace tarebook {

class CheckInPanel;
class CheckOutPanel;
class DecantPanel;
class Desk;

/// Out, in, and from cylinder to cylinder.
class JobsPage : public Page {
    Q_OBJECT
public:
    explicit JobsPage(Desk& desk, QWidget* parent = nullptr);
    void refresh() override;
    bool scan(const QString& text) override;
    bool enter() override;
    bool begin(Errand errand, const QString& subject) override;

private:
    QTabWidget* m_tabs;
    CheckOutPanel* m_out;
    CheckInPanel* m_in;
    DecantPanel* m_decant;
};

} // namespace tarebook
