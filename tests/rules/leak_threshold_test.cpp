#include "core/rules/leak_threshold.h"

#include <gtest/gtest.h>

using namespace tarebook;

namespace {

Rulebook book(int year, int month, int day) {
    return Rulebook::load(TAREBOOK_RESOURCE_DIR, "us", Date::of(year, month, day).value()).value();
}

Mass mass(const char* text) {
    return Mass::parse(text).value();
}

int percent(const Rulebook& rules, LeakLaw law, const char* use, const char* charge) {
    const auto threshold = leakThreshold(rules, law, use, mass(charge));
    EXPECT_TRUE(threshold);
    return threshold.value() ? threshold.value()->percent : 0;
}

} // namespace

// 40 CFR 82.157(c): 20 % commercial, 30 % industrial process, 10 % comfort cooling and others, from 50 lb.
TEST(LeakThreshold, OzoneDepletingRefrigerant) {
    const Rulebook rules = book(2026, 9, 14);
    EXPECT_EQ(percent(rules, LeakLaw::ods, "commercial refrigeration", "50 lb"), 20);
    EXPECT_EQ(percent(rules, LeakLaw::ods, "Industrial process refrigeration", "80 lb"), 30);
    EXPECT_EQ(percent(rules, LeakLaw::ods, "comfort cooling", "50 lb"), 10);
    EXPECT_EQ(percent(rules, LeakLaw::ods, "ice rink", "50 lb"), 10);
    EXPECT_EQ(percent(rules, LeakLaw::ods, "comfort cooling", "49.99 lb"), 0);
}

// 89 FR 82682: HFC systems from 15 lb since 2026-01-01; 6.80 kg is 14.991 lb and stays below (0.45359237 kg a
// pound).
TEST(LeakThreshold, HfcSince2026From15Pounds) {
    EXPECT_EQ(percent(book(2026, 1, 1), LeakLaw::hfc, "commercial refrigeration", "15 lb"), 20);
    EXPECT_EQ(percent(book(2025, 12, 31), LeakLaw::hfc, "commercial refrigeration", "15 lb"), 0);
    EXPECT_EQ(percent(book(2026, 1, 1), LeakLaw::hfc, "commercial refrigeration", "6.80 kg"), 0);
    EXPECT_EQ(percent(book(2026, 1, 1), LeakLaw::hfc, "commercial refrigeration", "6.804 kg"), 20);
}

// 125 % or more in a calendar year is reported (EPA fact sheets).
TEST(LeakThreshold, AChronicLeakerIsReported) {
    const Rulebook rules = book(2026, 9, 14);
    const auto threshold = chronicLeakThreshold(rules, LeakLaw::ods, mass("60 lb"));
    ASSERT_TRUE(threshold && threshold.value());
    EXPECT_EQ(threshold.value()->percent, 125);
    EXPECT_TRUE(threshold.value()->equalCounts);
    const Finding finding =
        leakFinding(rules, *threshold.value(), "system:HARBOR/DOCK-1", "130.00 %", {"78 lb of 60 lb"});
    EXPECT_EQ(finding.rule, "leak.chronic");
    EXPECT_EQ(finding.citation, "40 CFR 82.157(j)");
    EXPECT_NE(finding.headline.find("130.00 %"), std::string::npos);
}

TEST(LeakThreshold, NoneWhereTheRulebookHasNone) {
    const auto rules = Rulebook::load(TAREBOOK_RESOURCE_DIR, "au", Date::of(2026, 9, 14).value());
    const auto threshold = leakThreshold(rules.value(), LeakLaw::hfc, "comfort cooling", mass("90 lb"));
    ASSERT_TRUE(threshold);
    EXPECT_FALSE(threshold.value());
}
