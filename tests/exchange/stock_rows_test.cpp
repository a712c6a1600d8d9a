#include "core/exchange/stock_rows.h"

#include <gtest/gtest.h>

using namespace tarebook;

namespace {

std::vector<StockRow> rowsOf(const std::string& text) {
    const auto sheet = readSheet(text);
    EXPECT_TRUE(sheet);
    const auto rows =
        readStockRows(sheet.value(), guessColumns(sheet.value(), SheetKind::stocktake, SheetHabits{}));
    EXPECT_TRUE(rows) << (rows ? "" : rows.error().text());
    return rows ? rows.value() : std::vector<StockRow>();
}

} // namespace

// As people write it: other names, units in the header or none, a decimal comma, pounds and ounces, a row
// that is empty. A pound is 0.45359237 kg exactly (NIST Handbook 44, Appendix C).
TEST(StockRows, ReadsAMessySheet) {
    const auto rows = rowsOf("Cyl #;Weight (kg);Notes\nA101;12,25;\n;;\n A102 ;61 lb 14 oz;cap missing\n");
    ASSERT_EQ(rows.size(), 2U);
    ASSERT_TRUE(rows[0].weighing && rows[1].weighing);
    EXPECT_EQ(rows[0].weighing->gross.milligrams(), 12'250'000);
    EXPECT_EQ(rows[1].weighing->serial, "A102");
    EXPECT_EQ(rows[1].weighing->gross.milligrams(), 28'066'028); // 61.875 x 453592.37 mg
    EXPECT_EQ(rows[1].weighing->remark, "cap missing");
    EXPECT_EQ(rowsOf("serial,gross\nA101,27\n")[0].weighing->gross.milligrams(), 12'246'994); // pounds
}

TEST(StockRows, NamesTheColumnAndWhatWouldBeRight) {
    const auto rows =
        rowsOf("serial,gross\nA101,27.0 lb\nA101,28.0 lb\n,31 lb\nA103,\nA104,heavy\nA105,0 lb\n");
    ASSERT_EQ(rows.size(), 6U);
    const auto problem = [&](std::size_t row) {
        EXPECT_FALSE(rows[row].weighing) << row;
        return rows[row].problems.empty()
                   ? std::string()
                   : rows[row].problems[0].column + ": " + rows[row].problems[0].error.text();
    };
    // Which of two is right is not known: both wait.
    EXPECT_EQ(problem(0),
              "serial: 'A101' stands in line 3 too; keep the one that is right; the other may be of "
              "another cylinder");
    EXPECT_NE(problem(1).find("line 2"), std::string::npos);
    EXPECT_EQ(problem(2), "serial: the cell is blank; write the number of the cylinder");
    EXPECT_EQ(problem(3), "gross: the cell is blank; weigh the cylinder, as 59.6 lb");
    EXPECT_EQ(problem(4).rfind("gross: ", 0), 0U) << problem(4);
    EXPECT_EQ(problem(5), "gross: a cylinder weighs more than nothing; weigh it again");
    const auto sheet = readSheet("number,mass\nA101,27.0 lb\n").value();
    const auto none = readStockRows(sheet, guessColumns(sheet, SheetKind::stocktake, SheetHabits{}));
    ASSERT_FALSE(none);
    EXPECT_NE(none.error().text().find("serial, gross"), std::string::npos) << none.error().text();
}
