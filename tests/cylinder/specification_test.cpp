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

// Source: 49 CFR 173.301(a)(1) lists the specifications; 173.301a(b): 3 and 3E without a mark count as 1800
// psig; the table of 171.12(a)(4)(iii) gives the Canadian counterparts.
TEST(Specification, KnowsTheListedTypesAndTheirCanadianCounterparts) {
    for (const char* mark : {"DOT-3", "DOT-3E", "DOT-3E1800", "DOT-3AL1800", "DOT-3BN480", "DOT-4D500",
                             "DOT-4L200", "TC-3ALM124", "TC-4LM14", "TC-3EM124"}) {
        EXPECT_TRUE(Specification::parse(mark)) << mark;
    }
    EXPECT_NEAR(Specification::parse("DOT-3").value().markedPressure().psi(), 1800, 1e-9);
    EXPECT_FALSE(Specification::parse("DOT-3A"));
    EXPECT_EQ(Specification::parse("TC-4BAM28").value().dotType(), "4BA");
    EXPECT_EQ(Specification::parse("TC-3ANM33").value().dotType(), "3BN");
    EXPECT_EQ(Specification::parse("DOT-4BA400").value().dotType(), "4BA");
    EXPECT_NEAR(Specification::parse("TC-4BWM17").value().markedPressure().psi(), 246.6, 0.05);
}

// Source: UN Model Regulations 6.2.2.7.3 and EN ISO 13769 from memory: PH is the test pressure in bar, PW the
// working pressure; ISO 11118 is the standard of non-refillable receptacles.
TEST(Specification, ReadsUnAndEuropeanMarks) {
    const auto pressed = Specification::parse("UN ISO 9809-1 PH250 PW167");
    ASSERT_TRUE(pressed);
    EXPECT_EQ(pressed.value(), (Specification{"UN", "ISO9809-1", 0, false, "", 250, 167}));
    EXPECT_TRUE(pressed.value().metricTestMark());
    for (const char* text :
         {"EN 13322-1 PH 42", "en13322-1 ph42bar", "PI EN 13322-1 PH42 BAR", "EN EN13322-1 PH42"}) {
        const auto welded = Specification::parse(text);
        ASSERT_TRUE(welded) << text;
        EXPECT_EQ(welded.value(), (Specification{"EN", "EN13322-1", 0, false, "", 42, 0})) << text;
    }
    for (const char* text : {"UN ISO 11118 PH48", "UN NR PH48", "UN ISO 21172 NR PH48"}) {
        const auto single = Specification::parse(text);
        ASSERT_TRUE(single) << text;
        EXPECT_FALSE(single.value().refillable()) << text;
    }
    for (const char* text : {"UN", "EN 13322-1", "EN 13322-1 PH", "EN 13322-1 PH0", "EN 13322-1 PH 42.5",
                             "EN PH42", "UN ISO PH42", "EN 13322-1 PH99999", "EN 13322-1 PH42 PW0x"}) {
        EXPECT_FALSE(Specification::parse(text)) << text;
    }
}

TEST(Specification, TheMarkReadsBack) {
    for (const char* text :
         {"DOT-4BA400", "DOT-39", "DOT-3", "DOT-4B240ET", "TC-4BM17ET", "UN ISO 22991 PH42",
          "EN 13322-1 PH42 PW28", "EN ISO 9809-1 PH300", "UN NR PH48", "EN NR PH48"}) {
        const auto once = Specification::parse(text);
        ASSERT_TRUE(once) << text;
        const auto again = Specification::parse(once.value().text());
        ASSERT_TRUE(again) << once.value().text();
        EXPECT_EQ(again.value(), once.value()) << once.value().text();
    }
}
