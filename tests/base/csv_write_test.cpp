#include "core/base/csv_write.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "core/base/encoding.h"
#include "core/base/sheet.h"

using tarebook::csvCell;
using tarebook::csvLine;
using tarebook::readSheet;

namespace {

std::string drawnText() {
    static const std::vector<std::string> kPieces = {"a",  "Z",  "7",    " ", ",", ";", "\t",
                                                     "\"", "\n", "\r",   "=", "+", "-", "@",
                                                     "#",  "'",  "sep=", "ü", "°", "𒍅", "\xEF\xBB\xBF"};
    std::string text;
    for (const std::string& piece :
         *rc::gen::container<std::vector<std::string>>(rc::gen::elementOf(kPieces))) {
        text += piece;
    }
    return text;
}

/// What a person sees again: the apostrophe that csvCell put before a formula stays.
std::string shown(const std::string& text) {
    const std::string cell = csvCell(text);
    const bool guarded = cell.starts_with("'") || cell.starts_with("\"'");
    return guarded && !text.starts_with('\'') ? "'" + text : text;
}

} // namespace

// Source: RFC 4180, section 2, rules 6 and 7.
TEST(CsvWrite, QuotesAsTheRfcSays) {
    EXPECT_EQ(csvCell("plain"), "plain");
    EXPECT_EQ(csvCell("a, b"), "\"a, b\"");
    EXPECT_EQ(csvCell("5\" hose"), "\"5\"\" hose\"");
    EXPECT_EQ(csvLine({"a", "", "b\nc"}), "a,,\"b\nc\"");
    EXPECT_EQ(csvLine({""}), "\"\"");
}

// Common practice against formula injection: a cell beginning with = + - @, tab or line break is not a
// formula any more once a character stands before it.
TEST(CsvWrite, NeverWritesAFormula) {
    EXPECT_EQ(csvCell("=cmd|' /C calc'!A0"), "'=cmd|' /C calc'!A0");
    for (const char* text : {"=1+1", "@SUM(A1)", "+A1", "-2+3", "-1+E5", "\t=1", "\n=1", "-"}) {
        const std::string cell = csvCell(text);
        EXPECT_EQ(cell.find('\''), cell.front() == '"' ? 1U : 0U) << text;
    }
    for (const char* number : {"-40", "+3.5", "-2,5", "-1e-5", "-40 C", "-40 °F", "+7e3"}) {
        EXPECT_EQ(csvCell(number).find('\''), std::string::npos) << number;
    }
}

TEST(CsvWrite, ReadingGivesBackWhatWasWritten) {
    EXPECT_TRUE(rc::check("round trip", [] {
        const auto width = *rc::gen::inRange<std::size_t>(1, 5);
        std::vector<std::vector<std::string>> rows;
        std::vector<std::string> header;
        for (std::size_t place = 0; place < width; ++place) {
            header.push_back("column" + std::to_string(place));
        }
        std::string bytes = csvLine(header) + "\n";
        for (auto count = *rc::gen::inRange(0, 6); count > 0; --count) {
            std::vector<std::string> cells;
            for (std::size_t place = 0; place < width; ++place) {
                cells.push_back(drawnText());
            }
            bytes += csvLine(cells) + "\n";
            rows.push_back(cells);
        }
        const auto sheet = readSheet(bytes, {true});
        RC_ASSERT(sheet.ok());
        RC_ASSERT(sheet.value().problems.empty());
        RC_ASSERT(sheet.value().rows.size() == rows.size());
        for (std::size_t row = 0; row < rows.size(); ++row) {
            for (std::size_t place = 0; place < width; ++place) {
                RC_ASSERT(sheet.value().rows[row].cells[place] == shown(rows[row][place]));
            }
        }
    }));
}

TEST(CsvWrite, AnyBytesAreReadOrRefused) {
    EXPECT_TRUE(rc::check("no bytes harm the reader", [] {
        static const std::vector<std::string> kPieces = {"a",
                                                         ",",
                                                         ";",
                                                         "\t",
                                                         "\"",
                                                         "\"\"",
                                                         "\n",
                                                         "\r",
                                                         "\r\n",
                                                         "#",
                                                         std::string(1, '\0'),
                                                         "\xFF",
                                                         "\xFE",
                                                         "\xC3",
                                                         "\xBC",
                                                         "\xED\xA0\x80",
                                                         "\xEF\xBB\xBF",
                                                         "sep=",
                                                         " "};
        std::string bytes = *rc::gen::arbitrary<std::string>();
        for (const auto& piece : *rc::gen::container<std::vector<std::string>>(rc::gen::elementOf(kPieces))) {
            bytes += piece;
        }
        const auto sheet = readSheet(bytes, {*rc::gen::arbitrary<bool>()});
        if (!sheet) {
            RC_ASSERT(!sheet.error().wrong.empty());
            RC_ASSERT(!sheet.error().right.empty());
            return;
        }
        int line = sheet.value().headerLine;
        for (const auto& row : sheet.value().rows) {
            RC_ASSERT(row.line > line);
            line = row.line;
            const bool fits = row.cells.size() == sheet.value().header.size();
            RC_ASSERT(fits || sheet.value().problemAt(row.line) != nullptr);
            for (const auto& cell : row.cells) {
                RC_ASSERT(tarebook::isValidUtf8(cell));
            }
        }
    }));
}
