#pragma once

#include <QDialog>

#include <set>

#include "core/shop/returns.h"

class QLabel;
class QLineEdit;
class QTabWidget;
class QTableWidget;

namespace tarebook {

class Desk;
class SheetTabs;

/// The reclaimer's weights, what they take off, and their analysis, a row a cylinder, typed or from a sheet;
/// the difference from what was sent, and its likeliest cause, are shown while one types. Rows left as they
/// are stay open: a receipt may come in parts.
class ReceiptDialog : public QDialog {
    Q_OBJECT
public:
    ReceiptDialog(Desk& desk, const Batch& batch, QWidget* parent = nullptr);
    [[nodiscard]] ReceiptPapers papers() const;
    /// Nothing: now. Error: no such day.
    [[nodiscard]] Result<std::optional<Instant>> when() const;
    /// Of the rows that were entered. Error names the cell that cannot be read, or says that there is none.
    [[nodiscard]] Result<std::vector<ReceiptLine>> lines() const;
    /// Fills the rows from a sheet, whose columns can be put right beside them; false, and says why, when a
    /// row of it cannot be taken.
    bool takeSheet(const QString& path);

private:
    void addLine(const BatchLine& line);
    void addResult(int row, const std::string& serial);
    [[nodiscard]] QLineEdit* field(int row, int column) const;
    /// The tare says something else than was offered; a blank one says nothing.
    [[nodiscard]] bool tareChanged(int row) const;
    /// Nothing was entered in the row; the tare may stand as it was offered, or be blank.
    [[nodiscard]] bool leftOpen(int row) const;
    [[nodiscard]] Result<ReceiptLine> lineAt(int row) const;
    void showOpen();
    /// Reads the rows of the sheet by the columns as they are assigned; false as takeSheet().
    bool takeRows();
    void put(int row, const ReceiptLine& line);
    void showDifference(int row);
    void showCauses();
    void chooseSheet();
    void tryAccept();

    Desk& m_desk;
    Batch m_batch;
    QLineEdit* m_reference;
    QLineEdit* m_certificate;
    QLineEdit* m_when;
    QTableWidget* m_table;
    QLabel* m_causes;
    QLabel* m_open;
    QTabWidget* m_tabs;
    SheetTabs* m_sheet;
    std::set<int> m_fromSheet; // rows that it filled
};

} // namespace tarebook
