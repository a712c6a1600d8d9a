#pragma once

#include <QDialog>

#include "core/shop/returns.h"

class QLineEdit;
class QTableWidget;

namespace tarebook {

class Desk;

/// The reclaimer's weights and analysis, a row a cylinder; the difference from what was sent is shown while
/// one types.
class ReceiptDialog : public QDialog {
    Q_OBJECT
public:
    ReceiptDialog(Desk& desk, const Batch& batch, QWidget* parent = nullptr);
    [[nodiscard]] QString reference() const;
    /// Nothing: now. Error: no such day.
    [[nodiscard]] Result<std::optional<Instant>> when() const;
    /// Error names the cell that cannot be read.
    [[nodiscard]] Result<std::vector<ReceiptLine>> lines() const;

private:
    void showDifference(int row);
    void tryAccept();

    Desk& m_desk;
    Batch m_batch;
    QLineEdit* m_reference;
    QLineEdit* m_when;
    QTableWidget* m_table;
};

} // namespace tarebook
