// The shipped rulebooks through time: a verdict about the past uses the rows of that day. 180.209(e) was 10
// years from January 2017 and is 12 again since 30 November 2020 (Federal Register of 30 October 2020,
// US-RQ-16); other days as in leak_threshold_rows_test.cpp and duties_test.cpp.
#include <algorithm>

#include <gtest/gtest.h>

#include "core/rules/retest.h"
#include "tests/rules/book_fixture.h"

using namespace tarebook;

// Every bounded row of every shipped table holds on its bounds and not beyond.
TEST(Editions, RowsHoldWithinTheirDays) {
    int bounded = 0;
    for (const std::string& name : Rulebook::names()) {
        // Days far apart, so that rows of every time are met once.
        for (const char* day :
             {"2016-06-01", "2019-06-01", "2024-06-01", "2026-11-26", "2028-06-01", "2033-01-01"}) {
            const Rulebook& book = bookOn(name, day);
            for (const std::string& table : book.tableNames()) {
                for (const RuleRow& row : book.table(table)->rows) {
                    const auto holds = [&](Date on) {
                        const Rulebook& other = bookOn(name, on.text());
                        const RuleTable* its = other.table(table);
                        return its != nullptr &&
                               std::any_of(its->rows.begin(), its->rows.end(),
                                           [&](const RuleRow& one) { return one.cells == row.cells; });
                    };
                    if (!row.cell("holds_from").empty()) {
                        const Date from = must(Date::parse(row.cell("holds_from")));
                        EXPECT_TRUE(holds(from)) << name << " " << table << " " << row.section;
                        EXPECT_FALSE(holds(from.plusDays(-1))) << name << " " << table << " " << row.section;
                        ++bounded;
                    }
                    if (!row.cell("holds_to").empty()) {
                        const Date to = must(Date::parse(row.cell("holds_to")));
                        EXPECT_TRUE(holds(to)) << name << " " << table << " " << row.section;
                        EXPECT_FALSE(holds(to.plusDays(1))) << name << " " << table << " " << row.section;
                    }
                }
            }
        }
    }
    EXPECT_GT(bounded, 20);
}

// A coated 4BA400 in clean service, marked 5-07 without a letter.
TEST(Editions, TheIntervalOfCoatedCylindersByDay) {
    const auto dueOn = [](const char* day, const char* suffix) {
        RetestFacts facts{.specification = must(Specification::parse("DOT-4BA400")),
                          .manufactured = must(MonthYear::parse("1995-05")),
                          .lastTest = must(MonthYear::parse("2007-05")),
                          .markSuffix = must(parseMarkSuffix(suffix)),
                          .service = must(parseService("clean")),
                          .filledOn = {},
                          .waterCapacity = {},
                          .condition = {},
                          .on = must(Date::parse(day))};
        return must(retest(bookOn("us", day), facts)).dueText();
    };
    EXPECT_EQ(dueOn("2016-12-31", ""), "2019-05");
    EXPECT_EQ(dueOn("2017-01-01", ""), "2017-05");
    EXPECT_EQ(dueOn("2020-11-29", ""), "2017-05");
    EXPECT_EQ(dueOn("2020-11-30", ""), "2019-05");
    EXPECT_EQ(dueOn("2016-12-31", "S"), "2014-05"); // seven years until the end of 2016
    EXPECT_EQ(dueOn("2017-01-01", "S"), "2017-05");
}
