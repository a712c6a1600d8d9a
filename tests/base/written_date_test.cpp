#include "core/base/written_date.h"

#include <gtest/gtest.h>

using tarebook::DateOrder;
using tarebook::readDate;
using tarebook::readMoment;
using tarebook::readMonth;

// The month stands first by common practice in the United States; year-month-day is ISO 8601.
TEST(WrittenDate, ReadsTheSpellingsOfAShop) {
    for (const char* text : {"2026-09-14", "2026/9/14", "20260914", "14 Sep 2026", "14-Sep-26",
                             "Sep 14, 2026", "September 14 2026", "14.09.2026",
                             "\xC2\xA0"
                             "2026-09-14 "}) {
        for (const DateOrder order : {DateOrder::monthFirst, DateOrder::dayFirst}) {
            const auto read = readDate(text, order);
            ASSERT_TRUE(read) << text << ": " << read.error().text();
            EXPECT_EQ(read.value().text(), "2026-09-14") << text;
        }
    }
    EXPECT_EQ(readDate("3/4/26", DateOrder::monthFirst).value().text(), "2026-03-04");
    EXPECT_EQ(readDate("3/4/26", DateOrder::dayFirst).value().text(), "2026-04-03");
}

TEST(WrittenDate, NamesTheDayThatTheOtherOrderMeans) {
    const auto read = readDate("14/9/2026", DateOrder::monthFirst);
    ASSERT_FALSE(read);
    EXPECT_NE(read.error().right.find("2026-09-14"), std::string::npos);
    for (const char* text : {"", "2026", "2/30/2026", "2026-13-01", "45352", "Foo 3 2026", "1/2/3/4",
                             "14-9-2026", "9/14/026", "32/32/2026"}) {
        EXPECT_FALSE(readDate(text, DateOrder::monthFirst)) << text;
    }
    EXPECT_FALSE(readDate(std::string(10'000, '1'), DateOrder::dayFirst));
    EXPECT_FALSE(readMonth(std::string(10'000, '/'), DateOrder::dayFirst));
}

TEST(WrittenDate, TakesTheMonthOfADay) {
    EXPECT_EQ(readMonth("03/24", DateOrder::monthFirst).value().text(), "2024-03");
    EXPECT_EQ(readMonth("3/1/2024", DateOrder::monthFirst).value().text(), "2024-03");
    EXPECT_EQ(readMonth("1.3.2024", DateOrder::monthFirst).value().text(), "2024-03");
    EXPECT_FALSE(readMonth("13/24", DateOrder::monthFirst));
    EXPECT_FALSE(readMonth("2/30/2024", DateOrder::monthFirst));
}

TEST(WrittenDate, ReadsTimes) {
    for (const char* text :
         {"9/14/2026 4:30 PM", "2026-09-14 16:30", "2026-09-14T16:30:05", "9/14/26 4:30pm"}) {
        const auto read = readMoment(text, DateOrder::monthFirst);
        ASSERT_TRUE(read) << text;
        EXPECT_EQ(read.value().minuteOfDay, 16 * 60 + 30) << text;
    }
    EXPECT_EQ(readMoment("9/14/2026 12:05 AM", DateOrder::monthFirst).value().minuteOfDay, 5);
    EXPECT_FALSE(readMoment("2026-09-14", DateOrder::monthFirst).value().minuteOfDay);
    for (const char* text : {"2026-09-14 24:00", "2026-09-14 16:60", "2026-09-14 16:3", ":", "16:30",
                             "9/14/2026 13:00 PM", "2026-09-14T16:30Z"}) {
        EXPECT_FALSE(readMoment(text, DateOrder::monthFirst)) << text;
    }
}
