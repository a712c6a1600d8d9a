// Every row of leak-thresholds.csv: 40 CFR 82.157(c) (text of a legal mirror), 40 CFR 84.106 by a trade
// summary of 89 FR 82682 (EPA-33, EPA-45 to EPA-48, EPA-61 of the reference); the rates before 2019 are
// MEMORY.
#include <gtest/gtest.h>

#include "core/rules/leak_threshold.h"
#include "tests/rules/book_fixture.h"

using namespace tarebook;

namespace {

struct Case {
    const char* on;
    LeakLaw law;
    const char* use;
    const char* charge;
    int percent; // 0: none
};

const std::vector<Case> kCases{
    // 82.157(c), from 50 lb
    {"2026-11-26", LeakLaw::ods, "commercial refrigeration", "50 lb", 20},
    {"2026-11-26", LeakLaw::ods, "industrial process refrigeration", "50 lb", 30},
    {"2026-11-26", LeakLaw::ods, "comfort cooling", "50 lb", 10},
    {"2026-11-26", LeakLaw::ods, "ice rink", "50 lb", 10},
    {"2026-11-26", LeakLaw::ods, "ice rink", "49.9 lb", 0},
    {"2019-01-01", LeakLaw::ods, "commercial refrigeration", "50 lb", 20},
    // before 2019: MEMORY of the rule then in force
    {"2018-12-31", LeakLaw::ods, "commercial refrigeration", "50 lb", 35},
    {"2018-12-31", LeakLaw::ods, "industrial process refrigeration", "50 lb", 35},
    {"2018-12-31", LeakLaw::ods, "comfort cooling", "50 lb", 15},
    {"2018-12-31", LeakLaw::ods, "ice rink", "50 lb", 15},
    // substitutes from 2019-01-01 until 85 FR 14150 took effect on 2020-04-10 (EPA-31)
    {"2018-12-31", LeakLaw::hfc, "commercial refrigeration", "50 lb", 0},
    {"2019-01-01", LeakLaw::hfc, "commercial refrigeration", "50 lb", 20},
    {"2020-04-09", LeakLaw::hfc, "industrial process refrigeration", "50 lb", 30},
    {"2020-04-09", LeakLaw::hfc, "comfort cooling", "50 lb", 10},
    {"2020-04-09", LeakLaw::hfc, "ice rink", "50 lb", 10},
    {"2020-04-10", LeakLaw::hfc, "commercial refrigeration", "500 lb", 0},
    // 84.106 from 2026-01-01, from 15 lb
    {"2025-12-31", LeakLaw::hfc, "comfort cooling", "500 lb", 0},
    {"2026-01-01", LeakLaw::hfc, "commercial refrigeration", "15 lb", 20},
    {"2026-01-01", LeakLaw::hfc, "industrial process refrigeration", "15 lb", 30},
    {"2026-01-01", LeakLaw::hfc, "comfort cooling", "15 lb", 10},
    {"2026-01-01", LeakLaw::hfc, "ice rink", "15 lb", 10},
    {"2026-01-01", LeakLaw::hfc, "refrigerated transport", "15 lb", 10}, // EPA-61: may be exempt by now
    {"2026-01-01", LeakLaw::hfc, "ice rink", "14.9 lb", 0},
    // 84.102: retail food and cold storage are commercial refrigeration, rooftop units comfort cooling
    {"2026-11-26", LeakLaw::hfc, "Cold Storage Warehouse", "15 lb", 20},
    {"2026-11-26", LeakLaw::hfc, "packaged rooftop unit", "15 lb", 10},
    // EPA-46: outside whatever the charge
    {"2026-11-26", LeakLaw::hfc, "residential air conditioning", "100 lb", 0},
    {"2026-11-26", LeakLaw::hfc, "light commercial heat pump", "20 lb", 0}};

} // namespace

TEST(LeakThresholdRows, EveryRowOnItsDays) {
    for (const Case& one : kCases) {
        const auto found = must(leakThreshold(bookOn("us", one.on), one.law, one.use, weight(one.charge)));
        EXPECT_EQ(found ? found->percent : 0, one.percent) << one.on << " " << one.use << " " << one.charge;
        if (found) {
            EXPECT_FALSE(found->equalCounts) << "over, not from: 82.157(c)";
        }
    }
}

// EPA-36: 125 % of a calendar year, reached, not exceeded.
TEST(LeakThresholdRows, ChronicLeakers) {
    EXPECT_EQ(must(chronicLeakThreshold(bookOn("us"), LeakLaw::ods, weight("50 lb")))->percent, 125);
    EXPECT_EQ(must(chronicLeakThreshold(bookOn("us"), LeakLaw::hfc, weight("15 lb")))->percent,
              125); // MEMORY
    EXPECT_FALSE(must(chronicLeakThreshold(bookOn("us"), LeakLaw::hfc, weight("14 lb"))));
}

// EPA-50 (1,500 lb VERIFIED, the days MEMORY): retail food, cold storage and industrial processes.
TEST(LeakThresholdRows, WhoWatchesForLeaks) {
    const auto watched = [](const char* on, LeakLaw law, const char* use, const char* charge) {
        return leakDetection(bookOn("us", on), law, use, weight(charge)) != nullptr;
    };
    EXPECT_TRUE(watched("2026-01-01", LeakLaw::hfc, "commercial refrigeration", "1500 lb"));
    EXPECT_TRUE(watched("2026-11-26", LeakLaw::hfc, "supermarket", "1500 lb"));
    EXPECT_TRUE(watched("2026-11-26", LeakLaw::hfc, "industrial process refrigeration", "2000 lb"));
    EXPECT_FALSE(watched("2026-11-26", LeakLaw::hfc, "commercial refrigeration", "1499.9 lb"));
    EXPECT_FALSE(watched("2025-12-31", LeakLaw::hfc, "commercial refrigeration", "1500 lb"));
    EXPECT_FALSE(watched("2026-11-26", LeakLaw::hfc, "comfort cooling", "3000 lb"));
    EXPECT_FALSE(watched("2026-11-26", LeakLaw::ods, "commercial refrigeration", "1500 lb"));
}

TEST(LeakThresholdRows, AnExclusionIsNamed) {
    const RuleRow* row = leakExclusion(bookOn("us"), LeakLaw::hfc, "Residential heat pump");
    ASSERT_NE(row, nullptr);
    EXPECT_EQ(row->section, "40 CFR 84.106");
    EXPECT_EQ(leakExclusion(bookOn("us"), LeakLaw::hfc, "comfort cooling"), nullptr);
    EXPECT_EQ(leakExclusion(bookOn("us"), LeakLaw::ods, "residential heat pump"), nullptr);
    EXPECT_EQ(leakExclusion(bookOn("us", "2025-12-31"), LeakLaw::hfc, "residential heat pump"), nullptr);
}

// EPA-31, EPA-45: class I or II before HFC; substitutes above a GWP of 53. The ODP of R-1233zd(E) is above
// zero (0.00034, assessment value) but it is of no class.
// 40 CFR 82.157 asks what is ozone-depleting, 84.106 what is or contains an HFC (EPA-45 of the reference): a
// blend of both is asked by both. R-408A is R-22 with R-143a and R-125 (ASHRAE 34).
TEST(LeakThresholdRows, WhichLaw) {
    const auto laws = [](const char* contents) {
        std::string text;
        for (const LeakLaw law : must(leakLawsOf(bookOn("us"), testCatalogue(), contentsOf(contents)))) {
            text += law == LeakLaw::ods ? "ods " : "hfc ";
        }
        return text;
    };
    EXPECT_EQ(laws("R-22"), "ods ");
    EXPECT_EQ(laws("R-12"), "ods ");
    EXPECT_EQ(laws("R-408A"), "ods hfc ");
    EXPECT_EQ(laws("R-22:0.1+R-410A:0.9"), "ods hfc ");
    EXPECT_EQ(laws("R-410A"), "hfc ");
    EXPECT_EQ(laws("R-454C"), "hfc ");
    EXPECT_EQ(laws("R-14"), "hfc "); // no HFC, GWP 7390 (AR4)
    EXPECT_EQ(laws("R-1233zd(E)"), "");
    EXPECT_EQ(laws("R-1234yf"), "");
    EXPECT_EQ(laws("R-290"), "");
    EXPECT_EQ(laws("R-744"), "");
}
