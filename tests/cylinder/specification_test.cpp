#include "core/cylinder/specification.h"

#include <gtest/gtest.h>

using tarebook::Specification;

// Source of the limits: 49 CFR 173.301(a)(8); 5/4 of 400 psig is 500, of 350 psig 437.5.
TEST(Specification, ReadsStampedMarks) {
    const auto ba = Specification::parse("DOT-4BA400");
    ASSERT_TRUE(ba);
    EXPECT_EQ(ba.value(), (Specification{"DOT", "4BA", 400, false, ""}));
    EXPECT_DOUBLE_EQ(ba.value().pressureLimitAt55(), 500);
    EXPECT_TRUE(ba.value().refillable());
    const auto lower = Specification::parse(" dot 4ba 350 ");
    ASSERT_TRUE(lower);
    EXPECT_DOUBLE_EQ(lower.value().pressureLimitAt55(), 437.5);
    const auto metric = Specification::parse("TC-4BAM28");
    ASSERT_TRUE(metric);
    EXPECT_EQ(metric.value(), (Specification{"TC", "4BAM", 28, true, ""}));
}

// Source: 49 CFR 171.12(a)(4)(iii) table: TC-4BM17ET equals DOT-4B240ET, TC-4AAM33 equals DOT-4AA480.
TEST(Specification, ReadsLettersBehindThePressure) {
    const auto us = Specification::parse("DOT-4B240ET");
    ASSERT_TRUE(us);
    EXPECT_EQ(us.value(), (Specification{"DOT", "4B", 240, false, "ET"}));
    const auto metric = Specification::parse("TC-4BM17ET");
    ASSERT_TRUE(metric);
    EXPECT_EQ(metric.value(), (Specification{"TC", "4BM", 17, true, "ET"}));
    EXPECT_TRUE(Specification::parse("TC-4AAM33"));
    const auto single = Specification::parse("TC-39M");
    ASSERT_TRUE(single);
    EXPECT_FALSE(single.value().refillable());
    EXPECT_FALSE(Specification::parse("DOT-4B240EX"));
}

// Source: 49 CFR 178.65(i)(2)(viii): its marking warns that transport after refilling is forbidden.
TEST(Specification, ThirtyNineIsNeverRefilled) {
    const auto single = Specification::parse("DOT-39");
    ASSERT_TRUE(single);
    EXPECT_FALSE(single.value().refillable());
}

TEST(Specification, AMisspeltTypeNamesTheNearest) {
    const auto misspelt = Specification::parse("DOT-4BX400");
    ASSERT_FALSE(misspelt);
    EXPECT_NE(misspelt.error().wrong.find("4BX"), std::string::npos);
    EXPECT_NE(misspelt.error().right.find("4B"), std::string::npos);
    for (const char* text : {"", "DOT", "DOT-", "DOT-4BA", "DOT-4BA0", "DOT-4BA-4x", "4BA400", "DOT-400",
                             "TC-39A", "DOT-4BA99999999999"}) {
        EXPECT_FALSE(Specification::parse(text)) << text;
    }
    EXPECT_FALSE(Specification::parse("DOT-" + std::string(10'000, '4')));
}

TEST(Specification, WritesWhatItReads) {
    for (const char* mark : {"DOT-4BA400", "DOT-39", "TC-4BAM28", "DOT-4B240ET", "DOT-3A480X"}) {
        EXPECT_EQ(Specification::parse(mark).value().text(), mark);
    }
}
