#include "core/exchange/cylinder_rows.h"

#include "core/shop/usual_tare.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "core/base/csv_write.h"

using namespace tarebook;

namespace {

constexpr std::string_view kHeader =
    "serial,specification,water_capacity,tare,manufactured,last_test,test_method,"
    "owner,overfill_sensor,refrigerant\n";

std::vector<CylinderRow> rowsOf(std::string_view text, CylinderRowsContext context = {}) {
    context.today = Date::parse("2026-09-14").value();
    const auto sheet = readSheet(text);
    EXPECT_TRUE(sheet);
    const auto map = guessColumns(sheet.value(), SheetKind::cylinders, {});
    auto rows = readCylinderRows(sheet.value(), map, context);
    EXPECT_TRUE(rows) << (rows ? "" : rows.error().text());
    return rows ? std::move(rows).value() : std::vector<CylinderRow>{};
}

CylinderRow rowOf(const std::string& cells) {
    const auto rows = rowsOf(std::string(kHeader) + cells + "\n");
    return rows.empty() ? CylinderRow{} : rows.front();
}

std::string problemsOf(const CylinderRow& row) {
    std::string text;
    for (const RowProblem& problem : row.problems) {
        text += problem.column + ": " + problem.error.text() + "\n";
    }
    return text;
}

} // namespace

// The acceptance script of a week at the counter, step 1: seven cylinders of an invented shop; the third
// row's mark is misspelt, the fifth row's tare is ten times the usual.
TEST(CylinderRows, ReadsTheWeeksSpreadsheet) {
    const auto rows = rowsOf("Serial No,Spec,WC,Tare,Mfg date,Retest,Owner\r\n"
                             "A101,DOT-4BA400,47.7 lb,27.0 lb,03/21,,\r\n"
                             "A102,DOT-4BW400,47.7 lb,28.1 lb,2023-06,,\r\n"
                             "A103,DOT-4BX400,26.2 lb,17 lb 0 oz,Oct 2024,,customer: Ansel Harbor\r\n"
                             "A104,DOT-4BA350,47.7 lb,26.0 lb,2022-05,,\r\n"
                             "A105,DOT-4BA400,47.7 lb,279 lb,2022-10,,customer: Brightwater\r\n"
                             "A107,DOT-4BA400,26.2 lb,16.8 lb,2025-02,,\r\n"
                             "D001,DOT-39,26.2 lb,6.1 lb,2026-05,,\r\n");
    ASSERT_EQ(rows.size(), 7U);
    for (const std::size_t right : {0U, 1U, 3U, 5U, 6U}) {
        EXPECT_EQ(rows[right].state(), RowState::accepted) << problemsOf(rows[right]);
        ASSERT_TRUE(rows[right].nameplate);
    }
    EXPECT_EQ(rows[0].nameplate->manufactured.text(), "2021-03");
    EXPECT_EQ(rows[1].nameplate->tare, Mass::parse("28.1 lb").value());
    EXPECT_EQ(rows[2].state(), RowState::refused);
    EXPECT_EQ(rows[2].line, 4);
    ASSERT_EQ(rows[2].problems.size(), 1U) << problemsOf(rows[2]);
    EXPECT_EQ(rows[2].problems[0].column, "Spec");
    EXPECT_NE(rows[2].problems[0].error.right.find("DOT-4B"), std::string::npos);
    EXPECT_EQ(rows[4].state(), RowState::confirm);
    ASSERT_TRUE(rows[4].nameplate);
    EXPECT_NE(rows[4].problems.at(0).error.right.find("27.9 lb"), std::string::npos);
    EXPECT_EQ(rows[4].nameplate->owner.name, "Brightwater");
}

TEST(CylinderRows, RefusesWithTheReason) {
    const std::vector<std::pair<std::string, std::string>> wrong = {
        {"A1,DOT-4BA400,47.7 lb,,2021-03,,,,,", "tare: the tare is blank"},
        {"A1,DOT-4BA400,47.7 lb,0 lb,2021-03,,,,,", "tare: the tare is zero"},
        {"A1,DOT-4BA400,47.7 lb,-27 lb,2021-03,,,,,", "tare: '-27 lb' is negative"},
        {"A1,DOT-4BA400,47.7 lb,1000000000000 lb,2021-03,,,,,", "tare: "},
        {"A1,DOT-4BA400,47.7 lb,9000 lb,2021-03,,,,,", "cannot be that of a cylinder"},
        {"A1,DOT-4BA400,0 lb,27 lb,2021-03,,,,,", "water_capacity: a water capacity of zero"},
        {"A1,DOT-4BA400,47.7 lb,27 lb,2021-13,,,,,", "manufactured: there is no month 13"},
        {"A1,DOT-4BA400,47.7 lb,27 lb,2027-01,,,,,", "manufactured: 2027-01 is still to come"},
        {"A1,DOT-4BA400,47.7 lb,27 lb,2021-03,2020-12,,,,", "last_test: the last test, 2020-12, is before"},
        {"A1,DOT-4BA400,47.7 lb,27 lb,2021-03,2026-10,,,,", "last_test: 2026-10 is still to come"},
        {",DOT-4BA400,47.7 lb,27 lb,2021-03,,,,,", "serial: the cell is blank"},
        {"A1,=cmd|' /C calc'!A0,47.7 lb,27 lb,2021-03,,,,,", "specification: '=cmd|"},
        {"A1,DOT-4BA400,47.7 lb,27 lb,2021-03,,,mine,,", "owner: 'mine' is no kind of owner"},
        {"A1,DOT-4BA400,47.7 lb,27 lb,2021-03,,,,maybe,", "overfill_sensor: 'maybe'"},
        {"A1,DOT-4BA400,47.7 lb,27 lb", "manufactured: the row has 4 cells"},
        {std::string(10'000, 'S') + ",DOT-4BA400,47.7 lb,27 lb,2021-03,,,,,",
         "serial: the serial has 10000 characters"},
    };
    for (const auto& [cells, reason] : wrong) {
        const CylinderRow row = rowOf(cells);
        const std::string shown = cells.substr(0, 80);
        EXPECT_EQ(row.state(), RowState::refused) << shown;
        EXPECT_FALSE(row.nameplate) << shown;
        EXPECT_NE((problemsOf(row)).find(reason), std::string::npos) << shown << "\n" << problemsOf(row);
        for (const RowProblem& problem : row.problems) {
            EXPECT_FALSE(problem.error.right.empty()) << shown;
        }
    }
}

TEST(CylinderRows, TellsEveryProblemOfARow) {
    const CylinderRow row = rowOf(",DOT-4BX400,none,,99/99,,,,,");
    EXPECT_EQ(row.problems.size(), 5U) << problemsOf(row);
}

TEST(CylinderRows, ReadsTheEndOfAServiceLife) {
    const auto rows = rowsOf("Serial No,Spec,WC,Tare,Mfg date,Service life\n"
                             "A101,DOT-4BA400,47.7 lb,27.0 lb,03/21,Mar 2036\n"
                             "A102,DOT-4BA400,47.7 lb,27.0 lb,03/21,\n"
                             "A103,DOT-4BA400,47.7 lb,27.0 lb,03/21,2020-12\n"
                             "A104,DOT-4BA400,47.7 lb,27.0 lb,03/21,some day\n");
    ASSERT_EQ(rows.size(), 4U);
    ASSERT_TRUE(rows[0].nameplate && rows[0].nameplate->serviceUntil) << problemsOf(rows[0]);
    EXPECT_EQ(rows[0].nameplate->serviceUntil->text(), "2036-03");
    EXPECT_FALSE(rows[1].nameplate->serviceUntil);
    EXPECT_NE(problemsOf(rows[2]).find("ends before the manufacture"), std::string::npos)
        << problemsOf(rows[2]);
    EXPECT_EQ(rows[3].state(), RowState::refused);
}

TEST(CylinderRows, ASerialTwiceNamesTheOtherLine) {
    const std::string rest = ",DOT-4BA400,47.7 lb,27 lb,2021-03,,,,,\n";
    CylinderRowsContext context;
    context.knownSerials = {"K1"};
    const auto rows = rowsOf(std::string(kHeader) + "A1" + rest + "A2" + rest + "A1" + rest + "a2" + rest +
                                 "K1" + rest + "k1" + rest,
                             context);
    ASSERT_EQ(rows.size(), 6U);
    EXPECT_EQ(rows[0].state(), RowState::accepted);
    EXPECT_EQ(rows[2].state(), RowState::refused);
    EXPECT_NE(problemsOf(rows[2]).find("line 2"), std::string::npos);
    EXPECT_EQ(rows[3].state(), RowState::confirm);
    EXPECT_TRUE(rows[3].nameplate);
    EXPECT_EQ(rows[4].state(), RowState::refused);
    EXPECT_NE(problemsOf(rows[4]).find("already in the shop"), std::string::npos);
    EXPECT_EQ(rows[5].state(), RowState::confirm);
}

TEST(CylinderRows, AFormulaStaysText) {
    const CylinderRow row = rowOf("=cmd|' /C calc'!A0,DOT-4BA400,47.7 lb,27 lb,2021-03,,,,,");
    ASSERT_TRUE(row.nameplate) << problemsOf(row);
    EXPECT_EQ(row.nameplate->serial, "=cmd|' /C calc'!A0");
    EXPECT_EQ(csvCell(row.nameplate->serial), "'=cmd|' /C calc'!A0");
}

TEST(CylinderRows, ASerialThatASpreadsheetShortenedIsAskedAbout) {
    EXPECT_EQ(rowOf("1.23E+05,DOT-4BA400,47.7 lb,27 lb,2021-03,,,,,").state(), RowState::confirm);
    EXPECT_EQ(rowOf("E+05,DOT-4BA400,47.7 lb,27 lb,2021-03,,,,,").state(), RowState::accepted);
}

TEST(CylinderRows, NeedsColumnsAndRows) {
    const auto sheet = readSheet(kHeader);
    ASSERT_TRUE(sheet);
    const auto map = guessColumns(sheet.value(), SheetKind::cylinders, {});
    EXPECT_FALSE(readCylinderRows(sheet.value(), map, {}));
    const auto other = readSheet("serial,tare\nA1,27 lb\n");
    ASSERT_TRUE(other);
    const auto read =
        readCylinderRows(other.value(), guessColumns(other.value(), SheetKind::cylinders, {}), {});
    ASSERT_FALSE(read);
    EXPECT_NE(read.error().wrong.find("water_capacity"), std::string::npos);
}

// Common practice, from memory: pairs of water capacity and tare as commonly stamped; the first four are the
// invented shop's. 123 and 239 lb of water are the usual 50 kg class recovery cylinders.
TEST(UsualTare, LetsRealCylindersPass) {
    const auto odd = [](const char* mark, const char* capacity, const char* tare) {
        return unusualTare(Specification::parse(mark).value(), WaterCapacity::parse(capacity).value(),
                           Mass::parse(tare).value())
            .has_value();
    };
    EXPECT_FALSE(odd("DOT-4BA400", "47.7 lb", "27.0 lb"));
    EXPECT_FALSE(odd("DOT-4BA400", "26.2 lb", "16.8 lb"));
    EXPECT_FALSE(odd("DOT-39", "26.2 lb", "6.1 lb"));
    EXPECT_FALSE(odd("DOT-4BW400", "47.7 lb", "28.1 lb"));
    EXPECT_FALSE(odd("DOT-4BA400", "123 lb", "55 lb"));
    EXPECT_FALSE(odd("DOT-4BW400", "239 lb", "80 lb"));
    EXPECT_TRUE(odd("DOT-4BA400", "47.7 lb", "279 lb"));
    EXPECT_TRUE(odd("DOT-4BA400", "47.7 lb", "2.7 lb"));
    EXPECT_TRUE(odd("DOT-4BA400", "477 lb", "27 lb"));
    EXPECT_TRUE(odd("DOT-39", "26.2 lb", "17 lb"));
}

TEST(CylinderRows, AnEmptyMayBeACleanOne) {
    const auto rows = rowsOf("serial,specification,water_capacity,tare,manufactured,under vacuum\n"
                             "A1,DOT-4BA400,47.7 lb,27 lb,2021-03,yes\n"
                             "A2,DOT-4BA400,47.7 lb,27 lb,2021-03,\n"
                             "A3,DOT-4BA400,47.7 lb,27 lb,2021-03,perhaps\n");
    ASSERT_EQ(rows.size(), 3U);
    EXPECT_TRUE(rows[0].evacuated) << problemsOf(rows[0]);
    EXPECT_FALSE(rows[1].evacuated);
    EXPECT_EQ(rows[2].state(), RowState::refused);
    EXPECT_NE(problemsOf(rows[2]).find("under vacuum: 'perhaps' is neither yes nor no"), std::string::npos)
        << problemsOf(rows[2]);
}
