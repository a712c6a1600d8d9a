// Levels of evacuation: 40 CFR 82.156(a) Table 1 (text of a legal mirror), EPA fact sheet for small
// appliances (EPA-22 to EPA-25 of the reference). Pressure classes of 82.152 are MEMORY (EPA-13).
#include "core/rules/evacuation.h"

#include <gtest/gtest.h>

#include "core/rules/appliance_pressure.h"
#include "tests/rules/book_fixture.h"

using namespace tarebook;

namespace {

struct Case {
    const char* appliance;
    const char* charge;
    const char* machine; // empty: not known
    const char* work;
    const char* level;
};

// The day of the table, its eve, both sides of 200 lb.
const std::vector<Case> kTable{{"very-high", "1 lb", "1990-01-01", "any", "0 inHg of vacuum"},
                               {"very-high", "500 lb", "2020-01-01", "any", "0 inHg of vacuum"},
                               {"high", "199.9 lb", "1993-11-14", "any", "0 inHg of vacuum"},
                               {"high", "199.9 lb", "1993-11-15", "any", "0 inHg of vacuum"},
                               {"high", "200 lb", "1993-11-14", "any", "4 inHg of vacuum"},
                               {"high", "200 lb", "1993-11-15", "any", "10 inHg of vacuum"},
                               {"medium", "199.9 lb", "1993-11-14", "any", "4 inHg of vacuum"},
                               {"medium", "199.9 lb", "1993-11-15", "any", "10 inHg of vacuum"},
                               {"medium", "200 lb", "1993-11-14", "any", "4 inHg of vacuum"},
                               {"medium", "200 lb", "1993-11-15", "any", "15 inHg of vacuum"},
                               {"low", "10 lb", "1990-01-01", "any", "25 mmHg absolute"},
                               {"low", "500 lb", "2020-01-01", "any", "25 mmHg absolute"},
                               // not known: the stricter one
                               {"high", "200 lb", "", "any", "10 inHg of vacuum"},
                               {"medium", "200 lb", "", "any", "15 inHg of vacuum"},
                               // EPA-24
                               {"very-high", "20 lb", "", "not-major", "0 psig"},
                               {"high", "300 lb", "", "not-major", "0 psig"},
                               {"medium", "300 lb", "", "not-major", "0 psig"},
                               {"low", "300 lb", "", "not-major", "0 psig"},
                               // EPA-24, second sentence: MEMORY
                               {"very-high", "20 lb", "", "leaking", "0 psig"},
                               {"high", "300 lb", "", "leaking", "0 psig"},
                               {"medium", "300 lb", "", "leaking", "0 psig"},
                               {"low", "300 lb", "", "leaking", "0 psig"},
                               // EPA-25
                               {"small", "2 lb", "", "any", "4 inHg of vacuum"},
                               {"small", "2 lb", "", "compressor-works", "90 %"},
                               {"small", "2 lb", "", "compressor-dead", "80 %"}};

EvacuationAsk ask(const Case& its) {
    EvacuationAsk asked{its.appliance, weight(its.charge), {}, its.work, {}};
    if (*its.machine != '\0') {
        asked.machineMade = must(Date::parse(its.machine));
    }
    return asked;
}

Finding reached(const char* appliance, const char* charge, const char* work, const char* reading) {
    EvacuationAsk asked{appliance, weight(charge), must(Date::parse("2020-01-01")), work, {}};
    asked.reached = must(EvacuationReading::parse(reading));
    return must(evacuation(bookOn("us"), asked));
}

} // namespace

TEST(Evacuation, EveryRowOfTable1) {
    for (const Case& its : kTable) {
        const Finding finding = must(evacuation(bookOn("us"), ask(its)));
        EXPECT_TRUE(says(finding, its.level))
            << its.appliance << its.charge << its.machine << finding.headline;
        EXPECT_TRUE(finding.citation.starts_with("40 CFR 82.156"));
        EXPECT_EQ(finding.severity, Severity::note);
        EXPECT_EQ(finding.firmness == Firmness::memory, std::string(its.work) == "leaking");
    }
    // every row was met
    EXPECT_EQ(bookOn("us").table("evacuation")->rows.size(), 20U);
}

// 29.9 - 10 = 19.9 inHg above vacuum; 25 mm is 0.984 in; 0 psig is the air itself.
TEST(Evacuation, AReadingMeetsTheLevelOrNot) {
    EXPECT_EQ(reached("medium", "100 lb", "any", "10 inHg").severity, Severity::note);
    const Finding shy = reached("medium", "100 lb", "any", "9.5 inHg");
    EXPECT_EQ(shy.severity, Severity::refusal);
    EXPECT_TRUE(says(shy, "margin -0.50"));
    EXPECT_EQ(reached("low", "100 lb", "any", "25 mmHg").severity, Severity::note);
    EXPECT_EQ(reached("low", "100 lb", "any", "26 mmHg").severity, Severity::refusal);
    EXPECT_EQ(reached("low", "100 lb", "any", "28.9 inHg").severity, Severity::refusal); // 1.0 in, 25.4 mm
    EXPECT_EQ(reached("high", "100 lb", "any", "0 psig").severity, Severity::note);
    EXPECT_EQ(reached("high", "100 lb", "any", "1 psig").severity, Severity::refusal);
    EXPECT_EQ(reached("small", "2 lb", "compressor-works", "90 %").severity, Severity::note);
    EXPECT_EQ(reached("small", "2 lb", "compressor-works", "89 %").severity, Severity::refusal);
}

TEST(Evacuation, WrongInputIsNamed) {
    for (const char* text : {"", "much", "10", "10 bar", "31 inHg", "120 %", "-1 psig"}) {
        EXPECT_FALSE(EvacuationReading::parse(text)) << text;
    }
    EvacuationAsk asked{"high", weight("20 lb"), {}, "any", must(EvacuationReading::parse("90 %"))};
    const auto mixedUp = evacuation(bookOn("us"), asked);
    ASSERT_FALSE(mixedUp);
    EXPECT_NE(mixedUp.error().right.find("10 inHg"), std::string::npos);
    asked.reached.reset();
    asked.work = "compressor-works";
    EXPECT_FALSE(evacuation(bookOn("us"), asked));
    EXPECT_FALSE(evacuation(bookOn("eu"), asked)) << "the eu rulebook has no such table";
}

// 82.152 examples (MEMORY): R-123 low; R-134a medium; R-22, R-404A, R-407C, R-410A high; R-23, R-508B, R-744
// very high.
TEST(AppliancePressure, ExamplesOfEveryClass) {
    const std::vector<std::pair<const char*, const char*>> cases{
        {"R-123", "low"},      {"R-11", "low"},         {"R-134a", "medium"},  {"R-12", "medium"},
        {"R-22", "high"},      {"R-404A", "high"},      {"R-407C", "high"},    {"R-410A", "high"},
        {"R-23", "very-high"}, {"R-508B", "very-high"}, {"R-744", "very-high"}};
    for (const auto& [refrigerant, name] : cases) {
        const auto found = must(appliancePressure(bookOn("us"), testCatalogue(), contentsOf(refrigerant)));
        EXPECT_EQ(found.name, name) << refrigerant;
        EXPECT_EQ(found.row.firmness, Firmness::memory);
    }
    EXPECT_FALSE(appliancePressure(bookOn("au"), testCatalogue(), contentsOf("R-22")));
}

// The bounds 45, 220 and 355 psia at 104 degF (MEMORY): mixtures whose pressure by the model lies half a per
// cent below and above a bound are of the class below and above it.
TEST(AppliancePressure, EveryBoundFromBothSides) {
    struct Pair {
        const char* low;
        const char* high;
        double psia;
        const char* below;
        const char* above;
    };
    for (const Pair& pair :
         {Pair{"R-123", "R-134a", 45, "low", "medium"}, Pair{"R-134a", "R-22", 220, "medium", "high"},
          Pair{"R-410A", "R-32", 355, "high", "very-high"}}) {
        const auto mixture = [&](double share) {
            return contentsOf(fmt::format("{}:{}+{}:{}", pair.low, 1 - share, pair.high, share));
        };
        const auto pressure = [&](double share) {
            const auto state =
                must(saturationAt(testCatalogue(), mixture(share), must(Temperature::parse("40 C"))));
            return state.bubble.kilopascal() / kKilopascalPerPsi;
        };
        for (const double factor : {0.995, 1.005}) {
            double from = 0.001;
            double to = 0.999;
            for (int step = 0; step < 40; ++step) {
                const double middle = (from + to) / 2;
                (pressure(middle) < pair.psia * factor ? from : to) = middle;
            }
            ASSERT_NEAR(pressure(from), pair.psia * factor, 0.1) << pair.low << " with " << pair.high;
            EXPECT_EQ(must(appliancePressure(bookOn("us"), testCatalogue(), mixture(from))).name,
                      factor < 1 ? pair.below : pair.above)
                << pair.psia;
        }
    }
}

// R-410A stands near 351 psia at 104 degF (R-410A tables of the property library), within the model's
// uncertainty of the bound of 355.
TEST(AppliancePressure, AThinMarginIsSaid) {
    const auto found = must(appliancePressure(bookOn("us"), testCatalogue(), contentsOf("R-410A")));
    ASSERT_EQ(found.working.size(), 2U);
    EXPECT_NE(found.working[1].find("another class is possible"), std::string::npos);
}
