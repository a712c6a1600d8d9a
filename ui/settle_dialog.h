#pragma once

#include <QDialog>

#include "core/shop/exchanged.h"
#include "core/shop/returns.h"

class QLabel;
class QTableWidget;

namespace tarebook {

class Desk;

/// Closes a batch: which cylinders are back, which stay with the reclaimer, and the marks of those that came
/// in exchange. Records itself and stays open when that was refused.
class SettleDialog : public QDialog {
    Q_OBJECT
public:
    SettleDialog(Desk& desk, const Batch& batch, QWidget* parent = nullptr);

private:
    /// A cylinder of the batch: does it stay there, and what came for it; nothing when none did.
    [[nodiscard]] bool gone(int row) const;
    [[nodiscard]] std::optional<Exchanged> exchanged(int row) const;
    /// Which differences are settled without a decision; its tool tip has what to ask about each.
    [[nodiscard]] QLabel* undecidedLabel(const Finding& open);
    /// How the credit comes about by the terms on file.
    [[nodiscard]] QLabel* creditLabel();
    /// For which of them an empty is due by the terms on file.
    [[nodiscard]] QLabel* exchangeLabel();
    void addLine(const BatchLine& line);
    void followFate(int row);
    void settle();

    Desk& m_desk;
    Batch m_batch;
    QTableWidget* m_table;
};

} // namespace tarebook
