#pragma once

#include <QDate>

#include <functional>

#include "core/shop/books.h"
#include "core/shop/questions.h"
#include "ui/page.h"

class QComboBox;
class QDateEdit;
class QLabel;
class QLineEdit;
class QPushButton;
class QStackedWidget;
class QTableWidget;

namespace tarebook {

class ChartDrawing;
class Desk;
class FlowDrawing;

/// The auditor's questions in the auditor's words: a sentence, a picture, a table, and the entries behind it.
class BooksPage : public Page {
    Q_OBJECT
public:
    explicit BooksPage(Desk& desk, QWidget* parent = nullptr);
    void refresh() override;
    bool scan(const QString& text) override;
    bool begin(Errand errand, const QString& subject) override;
    /// Saves the table of the answer; false when it cannot be written.
    [[nodiscard]] bool saveCsv(const QString& path) const;
    /// The drawing of the answer as a PDF.
    [[nodiscard]] bool saveDrawing(const QString& path);

private:
    static constexpr int kLotsAtOnce = 400;

    QWidget* buildQuestions();
    QWidget* buildAnswer();
    QWidget* buildDays(QWidget* part);
    void addQuestions();
    /// Shows what the question wants to know.
    void followQuestion();
    /// One of core/shop/questions.h; nullptr for those that have a drawing of their own.
    [[nodiscard]] const Question* chosenQuestion() const;
    void askQuestion(const Question& question, Sequence head);
    /// What the question is given besides its head.
    [[nodiscard]] QuestionInput inputOf(const Question& question) const;
    QWidget* buildChart(QWidget* part);
    QWidget* buildTables(QWidget* part);
    QWidget* buildGas(QWidget* part);
    void fillGas();
    /// The picture of an answer that has one; nothing of an earlier one otherwise.
    void showChart();
    void tellPoint(int point);
    /// Only what belongs to the point: its rows of the table, the entries that made it so.
    void openPoint(int point);
    /// Only the entries of a row of the answer, where it has some of its own.
    void openPiece(int row);
    /// Lists what is read of the books that were asked, under that title; tells why where it cannot.
    [[nodiscard]] bool listBehind(const std::function<Result<std::vector<HistoryLine>>(Shop&)>& read,
                                  const QString& title);
    /// Of the picture that is shown; nullptr where it has no such point.
    [[nodiscard]] const ChartPoint* pointAt(int place) const;
    void showWhole();
    /// The rows of the answer, or those of them that are named.
    void addAnswerRows(const std::vector<std::size_t>* only);
    void listEntries(const std::vector<HistoryLine>& lines);
    /// What the rules say of the row that is chosen, or of all rows, with working and source.
    void showRules();
    void handOver();
    void followToday();
    void fillLots();
    void ask();
    void askCharge(Sequence head);
    void askContents(Sequence head);
    void askCustody(Sequence head);
    void askBalance(Sequence head);
    void verify();
    void answer(const TraceAnswer& answer);
    void addEntry(const HistoryLine& line);
    void fail(const Error& error);
    void setColumns(const QStringList& columns, int wide);
    void addRow(const QStringList& cells, int numbers);

    Desk& m_desk;
    QComboBox* m_question = nullptr;
    QStackedWidget* m_input = nullptr;
    QComboBox* m_lot = nullptr;
    QWidget* m_older = nullptr; // told while the list of charges is not the whole
    QLabel* m_listed = nullptr;
    int m_lotsListed = kLotsAtOnce;
    bool m_moreLots = false;
    QLineEdit* m_cylinder = nullptr;
    QComboBox* m_system = nullptr;
    QComboBox* m_customer = nullptr;
    QComboBox* m_gas = nullptr;
    QWidget* m_days = nullptr;
    QDateEdit* m_from = nullptr;
    QDateEdit* m_to = nullptr;
    QDate m_today; // when it was shown last
    QLineEdit* m_asOf = nullptr;
    QLabel* m_sentence = nullptr;
    QLabel* m_head = nullptr;
    QString m_digest; // of the books that were asked
    FlowDrawing* m_flow = nullptr;
    QWidget* m_flowArea = nullptr;
    QPushButton* m_drawn = nullptr;
    QPushButton* m_rules = nullptr; // shown with an answer that the rules have something to say of
    ChartDrawing* m_chart = nullptr;
    QWidget* m_chartPart = nullptr;
    QLabel* m_point = nullptr;
    QPushButton* m_whole = nullptr;
    // What the picture is of.
    QuestionAnswer m_told;
    std::vector<HistoryLine> m_toldLines;
    QuestionInput m_asked;
    Sequence m_askedHead = 0;
    QTableWidget* m_table = nullptr;
    QTableWidget* m_entries = nullptr;
    QLabel* m_entriesTitle = nullptr;
};

} // namespace tarebook
