// What a rulebook leaves open is said in it: the facts of the reference that no table carries (US-FL-01,
// US-FL-03, US-FL-14 of 49 CFR 173.301 to 173.304a; the columns of the requalification reference; CA-02,
// CA-12; AU-06), and what a shop's register does not know.
#include <algorithm>

#include <gtest/gtest.h>

#include "core/rules/retest.h"
#include "tests/rules/book_fixture.h"

using namespace tarebook;

namespace {

bool leavesOpen(const std::string& book, const std::string& subject, const std::string& words) {
    const auto& notes = bookOn(book).coverage();
    return std::any_of(notes.begin(), notes.end(), [&](const CoverageNote& note) {
        return note.subject == subject && !note.covered && note.remark.find(words) != std::string::npos;
    });
}

} // namespace

TEST(Coverage, FillingAndPressureInEveryRulebook) {
    for (const std::string& name : Rulebook::names()) {
        int yes = 0;
        int no = 0;
        for (const CoverageNote& note : bookOn(name).coverage()) {
            if (note.subject == "filling and pressure") {
                (note.covered ? yes : no) += 1;
            }
        }
        EXPECT_GE(yes, 1) << name;
        EXPECT_GE(no, 2) << name;
    }
}

TEST(Coverage, WhatTheReferenceHasAndTheTablesLack) {
    const char* filling = "filling and pressure";
    for (const char* words : {"173.301a(c)", "R-1141", "173.304a(a)(1)", "3HT", "EX", "CTC", "CSA B340"}) {
        EXPECT_TRUE(leavesOpen("us", filling, words)) << words;
    }
    EXPECT_TRUE(leavesOpen("us", "retest dates", "methods and test pressures"));
    EXPECT_TRUE(leavesOpen("ca", filling, "CSA B340"));
    EXPECT_TRUE(leavesOpen("ca", filling, "CTC"));
    EXPECT_TRUE(leavesOpen("au", filling, "AS 2030.5"));
    for (const char* book : {"eu", "uk"}) {
        EXPECT_TRUE(leavesOpen(book, filling, "formulas of P200 (5)")) << book;
        EXPECT_TRUE(leavesOpen(book, "leak checks", "hermetically sealed")) << book;
        EXPECT_TRUE(leavesOpen(book, "retest dates", "test pressures")) << book;
    }
    EXPECT_TRUE(leavesOpen("us", "leak rates", "installed"));
}

// What is said to be left open is: an old Canadian mark is not read, an aircraft cylinder
// has no period, a flammable gas passes in any packaging
// that bears its pressure (US-FL-14, READING), and a pressure at 21 degC is not compared.
TEST(Coverage, WhatIsLeftOpenIsLeftOpen) {
    EXPECT_FALSE(Specification::parse("CTC-4BA400"));
    EXPECT_FALSE(Specification::parse("ICC-4BA400"));
    const RetestFacts aircraft{.specification = must(Specification::parse("DOT-3HT2000")),
                               .manufactured = must(MonthYear::parse("2012-05")),
                               .lastTest = {},
                               .markSuffix = {},
                               .filledOn = {},
                               .waterCapacity = {},
                               .condition = {},
                               .on = must(Date::parse("2013-01-10"))};
    EXPECT_FALSE(retest(bookOn("us"), aircraft));
    EXPECT_TRUE(limitOf("DOT-4L500", "26.2 lb", "R-32"));
}

// 49 CFR 173.29(c): no paper for residue that is collected to be made ready again. SOR/2016-137: import and
// manufacture, not sale.
TEST(Coverage, DutiesSayWhatTheirSourcesSay) {
    const auto words = [](const char* book, const char* table, const char* subject) {
        for (const RuleRow& row : bookOn(book).table(table)->rows) {
            if (row.cell("subject") == subject) {
                return row.cell("duty");
            }
        }
        return std::string();
    };
    EXPECT_NE(
        words("us", "carriage-duties", "residue-paper").find("needs no paper when a contract or private"),
        std::string::npos);
    const std::string refillable = words("ca", "duties", "disposable");
    EXPECT_EQ(refillable.find("sold"), std::string::npos);
    EXPECT_NE(refillable.find("HCFC brought in and HFC made"), std::string::npos);
}
