#pragma once

#include <QDialog>

#include <optional>
#include <set>
#include <vector>

#include "core/papers/day_paper.h"

class QBoxLayout;
class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;
class QTableWidget;
class QTabWidget;

namespace tarebook {

class Desk;
class FindingView;
class SheetTabs;

/// The cylinders of a day for all technicians: a sheet of jobs is read, each row with what is wrong and what
/// would be right; what goes to whom, and why the others stay; printed, and checked out a technician at a
/// time, by the rules as they stand then.
class DayDialog : public QDialog {
    Q_OBJECT
public:
    explicit DayDialog(Desk& desk, QWidget* parent = nullptr);
    /// Reads a sheet and plans its jobs; false, and says why, where nothing of it can be planned.
    bool takeSheet(const QString& path);
    /// False, and says so, when the file cannot be written.
    bool writePdf(const QString& path);

private:
    void addFields(QBoxLayout& column);
    void addTabs(QBoxLayout& column);
    [[nodiscard]] QWidget* buildPlanTab();
    void addButtons(QBoxLayout& column);
    void chooseSheet();
    /// Reads the rows of the sheet by the columns as they are assigned; false as takeSheet().
    bool takeRows();
    /// With the day and the room to spare that are typed. False where they cannot be read or nothing can be
    /// planned.
    bool plan();
    /// The jobs with their room to spare. Error: it cannot be read.
    [[nodiscard]] Result<std::vector<DayJob>> jobsWithMargin() const;
    [[nodiscard]] Result<Date> day() const;
    /// Nothing is planned, and why.
    bool cannot(const QString& why);
    /// What is shown may be true no longer.
    void outdate(const QString& why);
    void followPlan();
    void showPlan();
    void addRow(const DayRow& its);
    /// Of the chosen row: the likeliest others and why they stay, the method's steps.
    void showChosen();
    void checkOut();
    void print();
    void askPdf();
    void say(const QString& text);

    Desk& m_desk;
    QPushButton* m_sheet = nullptr;
    QPushButton* m_anew = nullptr;
    QLabel* m_file = nullptr;
    QLineEdit* m_day = nullptr;
    QLineEdit* m_margin = nullptr;
    QTabWidget* m_tabs = nullptr;
    QTableWidget* m_table = nullptr;
    SheetTabs* m_jobSheet = nullptr;
    QLabel* m_why = nullptr;
    QTableWidget* m_next = nullptr;
    FindingView* m_findings = nullptr;
    QLabel* m_summary = nullptr;
    QComboBox* m_person = nullptr;
    QPushButton* m_checkOut = nullptr;
    QPushButton* m_print = nullptr;
    QPushButton* m_pdf = nullptr;
    QLabel* m_said = nullptr;
    std::vector<DayJob> m_jobs;
    std::size_t m_refused = 0;   // rows of the sheet
    std::vector<DayRow> m_shown; // of the table
    std::optional<DayPlan> m_plan;
    std::set<int> m_handedOut; // lines whose cylinders went out: planning anew leaves them out
    bool m_recording = false;  // what changes in the books comes from here
};

} // namespace tarebook
