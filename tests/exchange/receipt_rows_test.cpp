#include "core/exchange/receipt_rows.h"

#include <gtest/gtest.h>

using namespace tarebook;

namespace {

std::vector<ReceiptRow> rowsOf(const std::string& text) {
    const auto sheet = readSheet(text);
    EXPECT_TRUE(sheet);
    const auto rows =
        readReceiptRows(sheet.value(), guessColumns(sheet.value(), SheetKind::receipt, SheetHabits{}));
    EXPECT_TRUE(rows) << (rows ? "" : rows.error().text());
    return rows ? rows.value() : std::vector<ReceiptRow>();
}

} // namespace

// As laboratories write it: other names, units in the header, a decimal comma, a deduction in grams.
TEST(ReceiptRows, ReadsAMessySheet) {
    const auto rows = rowsOf("Cyl #;Gross wt (kg);Tare wt (kg);Oil removed (g);Result;COA\n"
                             "A102;22,27;12,75;90;fail;C-7\n;;;;;\nA103;18,96;7,71;;Pass;\n");
    ASSERT_EQ(rows.size(), 2U);
    ASSERT_TRUE(rows[0].receipt && rows[1].receipt);
    const ReceiptLine& first = *rows[0].receipt;
    EXPECT_EQ(first.net().milligrams(), 9'520'000); // 22.27 - 12.75 kg
    ASSERT_EQ(first.deductions.size(), 1U);
    EXPECT_EQ(first.deductions[0], (Deduction{"oil", Mass::fromMilligrams(90'000)}));
    EXPECT_EQ(first.payable().milligrams(), 9'430'000);
    EXPECT_EQ(first.result, AnalysisResult::impure);
    EXPECT_EQ(first.certificate, "C-7");
    EXPECT_EQ(rows[1].receipt->result, AnalysisResult::passed);
    EXPECT_TRUE(rows[1].receipt->deductions.empty());
}

TEST(ReceiptRows, NamesTheColumnAndWhatIsWrong) {
    const auto rows = rowsOf("serial,gross,tare,oil,result\nA1,30 lb,17 lb,,\nA1,31 lb,17 lb,,\n"
                             "A2,16 lb,17 lb,,\nA3,20 lb,17 lb,4 lb,\nA4,20 lb,,,\nA5,20 lb,17 lb,,fine\n");
    ASSERT_EQ(rows.size(), 6U);
    const char* columns[] = {"serial", "serial", "tare", "gross", "tare", "result"};
    for (std::size_t row = 0; row < rows.size(); ++row) {
        EXPECT_FALSE(rows[row].receipt) << row;
        ASSERT_EQ(rows[row].problems.size(), 1U) << row;
        EXPECT_EQ(rows[row].problems[0].column, columns[row]) << row;
    }
    EXPECT_NE(rows[0].problems[0].error.wrong.find("line 3"), std::string::npos);
    EXPECT_NE(rows[1].problems[0].error.wrong.find("line 2"), std::string::npos);
}
