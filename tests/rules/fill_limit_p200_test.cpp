#include "tests/rules/limits_fixture.h"

using namespace tarebook;

// Packing instruction P200. Conditions: 49 CFR 173.304b(b)(2) and the UN Model Regulations of 2011
// (verified); listed ratios and test pressures: from memory. Densities: multiparameter equations of state.

// 1.05 kg/l x 12.4 l = 13.02 kg; PH 42 is above the 18 bar of the row.
TEST(FillLimitP200, ListedGas) {
    const FillLimit limit = must(limitOf("EN 13322-1 PH42", "12.4 l", "R-134a", "eu"));
    EXPECT_NEAR(limit.lawful.kilograms(), 13.02, 1e-5);
    EXPECT_LE(limit.lawful.milligrams(), 13'020'001); // the capacity itself is kept to half a milligram
    EXPECT_TRUE(limit.statutoryKnown);
    EXPECT_EQ(candidateOf(limit, "fill.listed-ratio")->firmness, Firmness::memory);
    EXPECT_EQ(limit.governingRule, "fill.practice-80");
}

// R-125, 27.2 l: 0.87 with PH 42, 0.95 with PH 49, nothing with PH 30.
TEST(FillLimitP200, TwoRowsByTestPressure) {
    EXPECT_NEAR(must(limitOf("UN ISO 22991 PH42", "27.2 l", "R-125", "eu")).lawful.kilograms(), 23.664, 1e-4);
    const FillLimit high = must(limitOf("UN ISO 22991 PH49", "27.2 l", "R-125", "eu"));
    EXPECT_NEAR(high.lawful.kilograms(), 25.84, 1e-4);
    EXPECT_FALSE(high.remarks.empty()); // the liquid-full condition computes lower
    const auto low = limitOf("UN ISO 22991 PH30", "27.2 l", "R-125", "eu");
    ASSERT_FALSE(low);
    EXPECT_NE(low.error().wrong.find("35 bar"), std::string::npos);
}

// R-410A, 27.2 l: 0.95 x 0.907 = 0.862 and 0.815 kg/l at 60 degC: 22.16 kg, not 23.4.
TEST(FillLimitP200, UnlistedGasByBothConditions) {
    const FillLimit limit = must(limitOf("EN 13322-1 PH42", "27.2 l", "R-410A", "eu"));
    ASSERT_NE(candidateOf(limit, "fill.95-at-50C"), nullptr);
    EXPECT_NEAR(candidateOf(limit, "fill.95-at-50C")->net.kilograms(), 23.4, 23.4 * 0.02);
    EXPECT_EQ(candidateOf(limit, "fill.not-full-60C")->net, limit.lawful);
    EXPECT_LE(limit.lawful.kilograms(), 22.3);
    EXPECT_GT(limit.lawful.kilograms(), 21.6);
    EXPECT_FALSE(limit.statutoryKnown);
}

// UN receptacles in the United States go by 173.304b, DOT marks by 173.304a.
TEST(FillLimitP200, UnMarksInTheUnitedStates) {
    const FillLimit limit = must(limitOf("UN ISO 22991 PH42", "27.2 l", "R-410A", "us"));
    EXPECT_NE(candidateOf(limit, "fill.not-full-60C"), nullptr);
    EXPECT_EQ(candidateOf(limit, "fill.not-full-55C"), nullptr);
}

// P200 (5)(b) without data: Ph x MM x 0.001 / (0.0831451 x 338). R-508B (R-23 46 %, R-116 54 % by mass, 95.4
// g/mol by ASHRAE 34) has no liquid at 60 degC and no row: 250 x 95.4 x 0.001 / 28.103 = 0.849 kg/l.
TEST(FillLimitP200, FormulaWhereThereIsNoLiquid) {
    const FillLimit limit = must(limitOf("UN ISO 9809-1 PH250", "10 l", "R-508B", "eu"));
    EXPECT_EQ(limit.governingRule, "fill.p200-formula");
    EXPECT_NEAR(limit.net.kilograms(), 8.49, 0.02);
}

// 49 CFR 173.301(a)(2): a TC mark is filled by the Canadian rules; the figure is said to be from memory.
TEST(FillLimitP200, CanadianMarksSayThatTheyAreFromMemory) {
    const FillLimit here = must(limitOf("TC-4BAM28", "26.2 lb", "R-22", "us"));
    EXPECT_EQ(candidateOf(here, "fill.named-row")->firmness, Firmness::memory);
    EXPECT_FALSE(here.statutoryKnown);
    const FillLimit there = must(limitOf("TC-4BAM28", "26.2 lb", "R-22", "ca"));
    EXPECT_EQ(candidateOf(there, "fill.named-row")->firmness, Firmness::memory);
    EXPECT_EQ(here.net, there.net);
}
