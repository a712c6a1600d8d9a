#include "core/base/month_year.h"

#include <gtest/gtest.h>

using tarebook::MonthYear;

TEST(MonthYear, ReadsTheSpellingsOfASpreadsheet) {
    for (const char* text : {"2024-03", "03/24", "3/2024", "Mar 2024", "march 2024", " 2024-3 ", "Mar-24",
                             "Mar. 2024", "2024/03", "03.2024"}) {
        const auto read = MonthYear::parse(text);
        ASSERT_TRUE(read) << text;
        EXPECT_EQ(read.value().text(), "2024-03") << text;
    }
}

TEST(MonthYear, RefusesWhatIsNoMonth) {
    for (const char* text :
         {"", "2024", "13/24", "2024-00", "Mrz 2024", "03/24/01", "-", "2024-03-", "03/024"}) {
        EXPECT_FALSE(MonthYear::parse(text)) << text;
    }
    EXPECT_EQ(MonthYear::parse("Sept 2024").value().text(), "2024-09");
    EXPECT_NE(MonthYear::parse("45352").error().wrong.find("spreadsheet"), std::string::npos);
    EXPECT_FALSE(MonthYear::parse(std::string(10'000, '9')));
    EXPECT_FALSE(MonthYear::parse(std::string_view("03/2\0", 5)));
}

TEST(MonthYear, CountsMonthsAcrossYears) {
    const auto start = MonthYear::of(2021, 3);
    ASSERT_TRUE(start);
    EXPECT_EQ(start.value().plusMonths(60).text(), "2026-03");
    EXPECT_EQ(start.value().plusMonths(-3).text(), "2020-12");
    EXPECT_LT(start.value(), start.value().plusMonths(1));
}
