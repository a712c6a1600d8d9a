#pragma once

#include <QDialog>

class QCheckBox;
class QDateEdit;
class QLabel;
class QPushButton;
class QTableWidget;

namespace tarebook {

class Desk;

/// All cylinders on deposit or rent: those of others here, and ours with others, with their days and what
/// they cost so far. Enter on a row opens its card, where it is entered and ended.
class DepositsDialog : public QDialog {
    Q_OBJECT
public:
    DepositsDialog(Desk& desk, QWidget* parent);
    /// The list as it is shown, as CSV. False, and says so, when the file cannot be written.
    bool writeTable(const QString& path);

private:
    void list();
    void openCard();
    void save();

    Desk& m_desk;
    QDateEdit* m_day;
    QCheckBox* m_all;
    QTableWidget* m_table;
    QLabel* m_sums;
    QPushButton* m_card;
    QPushButton* m_save;
};

} // namespace tarebook
