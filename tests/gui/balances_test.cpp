// A balance month by month in the books, and the entries behind a row of it. Figures are those of the week at
// the counter: 14.6 lb of R-22; 20.0 and 25.0 lb of R-410A, of 0.45359237 kg a pound.
#include <QComboBox>
#include <QDateEdit>
#include <QFile>
#include <QLabel>
#include <QTableWidget>

#include "tests/gui/support/person.h"
#include "ui/books_page.h"
#include "ui/chart_drawing.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class BalancesInTheWindow : public WeekWindow {
protected:
    BalancesInTheWindow() { m_withCylinders = true; }
    void SetUp() override {
        WeekWindow::SetUp();
        setTime("2026-10-05T14:00:00Z");
        checkIn("A102", 0, "ST-ALDER/RTU-3", "28.1 lb", "59.9 lb"); // 31.8 lb
        window().openPlace(QStringLiteral("books"));
        the<QDateEdit>("bookFrom").setDate(QDate(2026, 9, 1));
        the<QDateEdit>("bookTo").setDate(QDate(2026, 10, 5));
    }
    void ask() {
        auto& question = the<QComboBox>("bookQuestion");
        pick(question, question.findData(QStringLiteral("balances")));
        click("bookAsk");
    }
    [[nodiscard]] std::string row(int number) {
        std::string all;
        for (int column = 0; column < the<QTableWidget>("bookTable").columnCount(); ++column) {
            all += (column == 0 ? "" : " ") + cell("bookTable", number, column);
        }
        return all;
    }
    [[nodiscard]] int entries() { return the<QTableWidget>("bookEntries").rowCount(); }
    [[nodiscard]] std::string entriesTitle() {
        for (const QLabel* label : window().findChildren<QLabel*>()) {
            if (label->isVisible() && label->text().startsWith(QStringLiteral("The entries"))) {
                return utf8(label->text());
            }
        }
        return {};
    }
};

} // namespace

TEST_F(BalancesInTheWindow, MonthByMonthAndARowOpensByKeysAndByTheMouse) {
    ask();
    EXPECT_TRUE(the<QComboBox>("bookGas").isVisible());
    EXPECT_FALSE(the<ChartDrawing>("chartDrawing").isVisible());
    auto& table = the<QTableWidget>("bookTable");
    ASSERT_EQ(table.rowCount(), 4);
    EXPECT_EQ(row(0), "2026-09-01 2026-09-30 R-22 0.000000 6.622449 0.000000 0.000000 6.622449");
    EXPECT_EQ(row(1), "2026-09-01 2026-09-30 R-410A 0.000000 20.411656 0.000000 0.000000 20.411656");
    EXPECT_EQ(row(2), "2026-10-01 2026-10-05 R-22 6.622449 0.000000 0.000000 0.000000 6.622449");
    EXPECT_EQ(row(3), "2026-10-01 2026-10-05 R-410A 20.411656 14.424237 0.000000 0.000000 34.835893");
    EXPECT_EQ(entries(), 0) << "of a period beyond a month they are asked for row by row";
    EXPECT_NE(entriesTitle().find("Enter"), std::string::npos) << "how is said: " << entriesTitle();
    table.setFocus();
    table.setCurrentCell(3, 0);
    QTest::keyClick(&table, Qt::Key_Return);
    ASSERT_EQ(entries(), 1);
    EXPECT_NE(cell("bookEntries", 0, 3).find("Recovered 31.8 lb"), std::string::npos);
    EXPECT_EQ(entriesTitle(), "The entries of R-410A from 2026-10-01 to 2026-10-05");
    QTest::mouseClick(table.viewport(), Qt::LeftButton, {}, table.visualItemRect(table.item(1, 2)).center());
    EXPECT_EQ(entries(), 2) << "A105 and D001";
    QTest::mouseClick(table.viewport(), Qt::LeftButton, {}, table.visualItemRect(table.item(2, 2)).center());
    EXPECT_EQ(entries(), 0) << "it only lay there";
    ASSERT_TRUE(window().findChild<BooksPage*>()->saveCsv(qt(file("balances.csv"))));
    QFile written(qt(file("balances.csv")));
    ASSERT_TRUE(written.open(QIODevice::ReadOnly));
    EXPECT_EQ(written.readAll().count("\r\n"), 5);
}

TEST_F(BalancesInTheWindow, OneOwnersGasAndTheBooksOfAnEarlierDay) {
    choose("bookGas", "owner:St. Alder Schools");
    ask();
    ASSERT_EQ(the<QTableWidget>("bookTable").rowCount(), 1);
    EXPECT_EQ(row(0), "2026-10-01 2026-10-05 R-410A 0.000000 14.424237 0.000000 0.000000 14.424237");
    EXPECT_NE(text("bookSentence").find("owned by St. Alder Schools"), std::string::npos);
    choose("bookGas", "R-410A");
    type("bookAsOf", "2026-09-14");
    click("bookAsk");
    ASSERT_EQ(the<QTableWidget>("bookTable").rowCount(), 1) << "these books end with their last day";
    EXPECT_EQ(row(0), "2026-09-01 2026-09-14 R-410A 0.000000 20.411656 0.000000 0.000000 20.411656");
    auto& table = the<QTableWidget>("bookTable");
    table.setFocus();
    table.setCurrentCell(0, 0);
    QTest::keyClick(&table, Qt::Key_Return);
    EXPECT_EQ(entries(), 2);
    // Another question has no rows that open.
    type("bookAsOf", "");
    pick(the<QComboBox>("bookQuestion"), 3);
    click("bookAsk");
    table.setFocus();
    table.setCurrentCell(0, 0);
    QTest::keyClick(&table, Qt::Key_Return);
    EXPECT_EQ(entries(), 0);
    EXPECT_EQ(entriesTitle(), "The entries behind it");
}
