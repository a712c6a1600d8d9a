#pragma once

#include <QDialog>

#include <functional>
#include <optional>

#include "core/shop/rule_uses.h"

class QComboBox;
class QDateEdit;
class QLabel;
class QLineEdit;
class QListWidget;
class QTableWidget;

namespace tarebook {

class Desk;

/// A rulebook to read: its tables row by row, with where each row stands in the law, which copy was read, how
/// firm that is, and where it decides something in this shop.
class RulebookWindow : public QDialog {
    Q_OBJECT
public:
    explicit RulebookWindow(Desk& desk, QWidget* parent = nullptr);
    /// Chooses the first row behind a rule, as `retest.base-5` or `retest.overdue`, and says above it what
    /// the name stands for; where no row is behind it, says only that. False when no finding has that name.
    bool showRule(const QString& rule);
    /// Opens the rulebook of a finding at the row behind it, or where its rule or its citation stands; false
    /// when there is no such row in the edition that is shown.
    bool showFinding(const Finding& finding);
    /// The rulebook window beside `beside`, opened where it is not open yet, at the row of a finding.
    static void openAt(Desk& desk, QWidget& beside, const Finding& finding);

private:
    QWidget* buildChoice();
    QWidget* buildTables();
    QWidget* buildRows();
    QWidget* buildRow();
    /// Loads what the box and the day ask for.
    void load();
    void showTable();
    void showRow();
    void showUses(std::size_t row);
    /// Chooses the first row that is meant.
    bool choose(const std::function<bool(const RuleRow&)>& meant);
    void filter();
    /// The shop's own rulebook, in the edition that holds today: only there uses are known.
    [[nodiscard]] bool isOfShop() const;

    Desk& m_desk;
    std::optional<Rulebook> m_book;
    std::optional<RuleUses> m_uses; // asked for when first needed
    QComboBox* m_which = nullptr;
    QDateEdit* m_day = nullptr;
    QLabel* m_title = nullptr;
    QListWidget* m_tables = nullptr;
    QLineEdit* m_find = nullptr;
    QTableWidget* m_rows = nullptr;
    QLabel* m_rowTitle = nullptr;
    QLabel* m_rowText = nullptr;
    QLabel* m_usesTitle = nullptr;
    QListWidget* m_usesList = nullptr;
};

} // namespace tarebook
