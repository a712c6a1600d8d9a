#pragma once

#include "ui/page.h"

class QLabel;
class QLineEdit;
class QTableView;

namespace tarebook {

class CardPanel;
class Desk;
class FleetModel;

/// The cylinders, filtered as one types, and beside them the card of the chosen one.
class FleetPage : public Page {
    Q_OBJECT
public:
    explicit FleetPage(Desk& desk, QWidget* parent = nullptr);
    void refresh() override;
    bool scan(const QString& text) override;
    bool begin(Errand errand, const QString& subject) override;

private:
    void filter();
    void showChosen();
    bool choose(const QString& serial);

    Desk& m_desk;
    FleetModel* m_model;
    QTableView* m_table;
    QLineEdit* m_filter;
    QLabel* m_count;
    CardPanel* m_card;
};

} // namespace tarebook
