#pragma once

#include <QDialog>

#include "core/shop/receipts.h"

class QLabel;
class QPushButton;
class QTableWidget;

namespace tarebook {

class Desk;

/// A receipt against what was shipped: three masses a cylinder, the likely causes of a difference, and what
/// the shop says to it. Each decision is recorded at once.
class DifferencesDialog : public QDialog {
    Q_OBJECT
public:
    DifferencesDialog(Desk& desk, QString batch, QWidget* parent = nullptr);

private:
    void refresh();
    void showLine();
    [[nodiscard]] QString chosen() const;
    void decide(const ReceiptDecision& decision, const QString& done);
    void dispute();
    void correct();
    void showParents();

    Desk& m_desk;
    QString m_name;
    Batch m_batch;
    std::vector<ReceiptDifference> m_differences;
    QLabel* m_sums;
    QTableWidget* m_table;
    QLabel* m_causes;
    QLabel* m_working;
    QPushButton* m_accept = nullptr;
    QPushButton* m_dispute = nullptr;
    QPushButton* m_correct = nullptr;
    QPushButton* m_parents = nullptr;
};

} // namespace tarebook
