#pragma once

#include <QStringList>

#include "ui/page.h"

class QComboBox;
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
    /// Anew, or only the cylinders that entries were about since.
    void readRows();
    void filter();
    void showChosen();
    bool choose(const QString& serial);

    Desk& m_desk;
    FleetModel* m_model;
    QTableView* m_table;
    QLineEdit* m_filter;
    QComboBox* m_show;
    QLabel* m_count;
    CardPanel* m_card;
    bool m_all = true;
    QStringList m_changed;
};

} // namespace tarebook
