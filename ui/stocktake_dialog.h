#pragma once

#include <QDialog>

#include <optional>
#include <set>

#include "core/shop/stocktake.h"

class QLabel;
class QLineEdit;
class QListWidget;
class QPushButton;
class QTabWidget;
class QTableWidget;

namespace tarebook {

class Desk;
class MassEdit;
class SheetTabs;

/// A walk along the racks: scan a number, type what the scale says, Enter, the next. Every weighing is
/// compared with the books at once; beside it what has not been seen yet; below it what may have made the
/// difference of the chosen one and what would mend it. Stays open beside the work.
class StocktakeDialog : public QDialog {
    Q_OBJECT
public:
    StocktakeDialog(Desk& desk, QWidget* parent);
    /// As the person types it; false where it cannot be taken, and says why.
    bool take(const QString& serial, const QString& gross, const QString& remark = {});
    /// Takes the weighings of a sheet, whose columns can be put right beside them; rows that cannot be read
    /// are left out. False, and says why, where none can.
    bool takeSheet(const QString& path);
    /// Writes the report as a PDF and says so.
    bool writePdf(const QString& path);

protected:
    void keyPressEvent(QKeyEvent* event) override;

private:
    void build();
    [[nodiscard]] QWidget* buildFields();
    [[nodiscard]] QWidget* buildLists();
    [[nodiscard]] QWidget* buildCauses();
    void add();
    void removeChosen();
    void chooseSheet();
    bool takeRows();
    void compare();
    void showLines();
    void showNotSeen();
    void showCauses();
    void choose(const QString& serial);
    void mend();
    void exchange(const std::string& one, const std::string& other);
    void enter();
    void print();
    void askPdf();
    [[nodiscard]] const StockLine* chosenLine() const;
    [[nodiscard]] const StockCause* chosenCause() const;
    void say(const QString& text);

    Desk& m_desk;
    std::vector<StockWeighing> m_weighings; // in the order in which they were scanned
    std::optional<StocktakeReport> m_report;
    QLineEdit* m_serial;
    MassEdit* m_gross;
    QLineEdit* m_remark;
    MassEdit* m_scaleError;
    QLineEdit* m_place;
    QLabel* m_said;
    QLabel* m_counts;
    QTabWidget* m_tabs;
    QTableWidget* m_table;
    SheetTabs* m_sheet;
    std::set<std::string> m_fromSheet; // serials that it gave
    QLabel* m_missing;
    QListWidget* m_notSeen;
    QTableWidget* m_causes;
    QLabel* m_advice;
    QPushButton* m_mend;
    QPushButton* m_record = nullptr;
    QPushButton* m_pdf = nullptr;
    QPushButton* m_print = nullptr;
};

} // namespace tarebook
