#pragma once

#include <QDialog>

#include <vector>

#include "core/shop/copies.h"

class QLabel;
class QListWidget;
class QPushButton;
class QTableWidget;

namespace tarebook {

/// The copies of a shop file that are kept, what the books would lose by going back to one, and the choice of
/// one to go back to. Restores nothing itself: chosen() names the copy when it was accepted.
class CopiesDialog : public QDialog {
    Q_OBJECT
public:
    /// `shop` null: the shop file cannot be opened.
    CopiesDialog(const QString& shopPath, Shop* shop, const Clock& clock, QWidget* parent);
    [[nodiscard]] QString chosen() const { return m_chosen; }

private:
    void addRow(const CopyRow& row);
    void showRow();
    void takeOther();
    void decide();

    QString m_path;
    Shop* m_shop;
    const Clock& m_clock;
    std::vector<CopyRow> m_rows;
    QTableWidget* m_table;
    QLabel* m_words;
    QListWidget* m_lost;
    QPushButton* m_restore = nullptr;
    QString m_chosen;
};

} // namespace tarebook
