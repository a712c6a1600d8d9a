#include "tests/rules/limits_fixture.h"

#include <random>

using namespace tarebook;

namespace {

/// A statutory figure cut to the milligram: never above, and not a milligram and a half below.
void expectCut(Mass found, const std::string& expected) {
    const Mass exact = must(Mass::parse(expected));
    EXPECT_LE(found, exact) << expected;
    EXPECT_LE(exact.milligrams() - found.milligrams(), 1) << expected;
}

} // namespace

// Sources of this file: 49 CFR 173.304a(a)(2) and (d)(1), 173.304(b), 173.301(a)(8) for the law; specific
// gravities and liquid densities of the reference table tests/standards/limits/pressure-rating-55C.csv
// (multiparameter equations of state); 80 % liquid at 25 degC is common practice (a trade article that cites
// AHRI Guideline K-2004). Named otherwise beside a check.

// 1.05 x 26.2 lb = 27.51 lb; practice 0.8 x 26.2 x 1.194 = 25.03 lb; 17.0 lb of tare.
TEST(FillLimit, NamedRowOfR22) {
    const FillLimit limit = must(limitOf("DOT-4BA400", "26.2 lb", "R-22"));
    EXPECT_EQ(limit.lawful.poundsFlooredText(), "27.5 lb");
    expectCut(limit.lawful, "27.51 lb");
    EXPECT_EQ(limit.net.poundsFlooredText(), "25.0 lb");
    EXPECT_EQ(limit.governingRule, "fill.practice-80");
    EXPECT_TRUE(limit.statutoryKnown);
    EXPECT_EQ(limit.grossToStopAt(must(Mass::parse("17.0 lb"))).poundsFlooredText(), "42.0 lb");
    ASSERT_NE(candidateOf(limit, "fill.named-row"), nullptr);
    EXPECT_EQ(candidateOf(limit, "fill.named-row")->citation, "49 CFR 173.304a(a)(2) Table 1");
}

// A published example (trade article citing AHRI Guideline K): 1000 lb of water, gravity 1.197: 957.6 lb. The
// property source moves it: with 1.194 it is 955.2 lb.
TEST(FillLimit, PublishedHalfTonExample) {
    const FillLimit limit = must(limitOf("DOT-4BA400", "1000 lb", "R-22"));
    EXPECT_NEAR(poundsOf(limit.practice), 957.6, 957.6 * 0.003);
    expectCut(limit.lawful, "1050 lb");
}

// 1.19 x 47.7 = 56.763 lb; practice 0.8 x 47.7 x 1.315 = 50.18 lb.
TEST(FillLimit, NamedRowOfR12) {
    const FillLimit limit = must(limitOf("DOT-4BA400", "47.7 lb", "R-12"));
    expectCut(limit.lawful, "56.763 lb");
    EXPECT_EQ(limit.practice.poundsFlooredText(), "50.1 lb");
    EXPECT_EQ(limit.governingRule, "fill.practice-80");
}

// No row of its own: not liquid-full at 55 degC, 1.080 x 26.2 = 28.30 lb; practice 25.36 lb. Never
// R-22's 27.5.
TEST(FillLimit, R134aHasNoPercentageButALimit) {
    const FillLimit limit = must(limitOf("DOT-4BA400", "26.2 lb", "R-134a"));
    EXPECT_FALSE(limit.statutoryKnown);
    EXPECT_EQ(candidateOf(limit, "fill.named-row"), nullptr);
    EXPECT_LT(poundsOf(limit.lawful), 28.31);
    EXPECT_GT(poundsOf(limit.lawful), 28.1);
    EXPECT_EQ(limit.practice.poundsFlooredText(), "25.3 lb");
}

// Bound 0.867 x 47.7 = 41.36 lb, practice 40.53 lb; 28.1 lb of tare: stop at 68.6 lb gross.
TEST(FillLimit, R410aByPracticeJustBelowTheBound) {
    const FillLimit limit = must(limitOf("DOT-4BW400", "47.7 lb", "R-410A"));
    EXPECT_LT(poundsOf(limit.lawful), 41.41);
    EXPECT_GT(poundsOf(limit.lawful), 40.6);
    EXPECT_EQ(limit.net.poundsFlooredText(), "40.5 lb");
    EXPECT_EQ(limit.grossToStopAt(must(Mass::parse("28.1 lb"))).poundsFlooredText(), "68.6 lb");
    EXPECT_EQ(limit.roomLeft(must(Mass::parse("20.0 lb"))).poundsFlooredText(), "20.5 lb");
    EXPECT_EQ(limit.roomLeft(must(Mass::parse("31.5 lb"))).poundsFlooredText(), "9.0 lb");
    EXPECT_EQ(must(limitOf("DOT-4BA400", "26.2 lb", "R-410A")).net.poundsFlooredText(), "22.2 lb");
}

// Practice 25.00 lb exceeds the bound of 24.81 lb: the bound must win.
TEST(FillLimit, PracticeIsNotSafeForR125) {
    const FillLimit limit = must(limitOf("DOT-4BA400", "26.2 lb", "R-125"));
    EXPECT_EQ(limit.governingRule, "fill.not-full-55C");
    EXPECT_LE(poundsOf(limit.net), 24.85);
    EXPECT_GT(poundsOf(limit.net), 24.6);
    EXPECT_GT(limit.practice, limit.net);
}

// 54 % x 105 lb = 56.7 lb, only in the packagings of its row; a 4BA480 is none of them.
TEST(FillLimit, Ammonia) {
    for (const char* mark : {"DOT-3A480", "DOT-3AA480", "DOT-3AL480", "DOT-3A480X", "DOT-4AA480", "DOT-3",
                             "DOT-3E1800", "TC-4AAM33"}) {
        const auto limit = limitOf(mark, "105 lb", "R-717");
        ASSERT_TRUE(limit) << mark;
        ASSERT_NE(candidateOf(limit.value(), "fill.named-row"), nullptr) << mark;
        expectCut(candidateOf(limit.value(), "fill.named-row")->net, "56.7 lb");
    }
    EXPECT_FALSE(limitOf("DOT-4BA480", "105 lb", "R-717"));
    EXPECT_FALSE(limitOf("DOT-3A400", "105 lb", "R-717"));
}

// Bands of 173.304a(d)(1): 0.504 to 0.510 is 42 %, 0.561 to 0.568 is 49 %. Gravities at 60 degF, 0.507 and
// 0.563, from memory: 42 % x 47.7 = 20.03 lb, 49 % x 47.7 = 23.37 lb.
TEST(FillLimit, HydrocarbonsByGravity) {
    const FillLimit propane = must(limitOf("DOT-4BA240", "47.7 lb", "R-290"));
    ASSERT_NE(candidateOf(propane, "fill.lpg"), nullptr);
    EXPECT_EQ(candidateOf(propane, "fill.lpg")->net.poundsFlooredText(), "20.0 lb");
    const FillLimit isobutane = must(limitOf("DOT-4BA240", "47.7 lb", "R-600a"));
    EXPECT_EQ(candidateOf(isobutane, "fill.lpg")->net.poundsFlooredText(), "23.3 lb");
    EXPECT_EQ(candidateOf(must(limitOf("DOT-4BA400", "47.7 lb", "R-32")), "fill.lpg"), nullptr);
}

// By pressure class: 68, 70.3, 73.2, 74.5 % from 1800, 2000, 2265, 2400 psig. No liquid at 55 degC, so
// neither the liquid-full rule (173.304(b) excepts it) nor the practice says anything.
TEST(FillLimit, CarbonDioxideByClass) {
    const std::map<std::string, std::string> nets = {{"DOT-3AA1800", "34.0 lb"},
                                                     {"DOT-3AA2015", "35.15 lb"},
                                                     {"DOT-3AA2265", "36.6 lb"},
                                                     {"DOT-3AA2400", "37.25 lb"}};
    for (const auto& [mark, net] : nets) {
        const FillLimit limit = must(limitOf(mark, "50 lb", "R-744"));
        expectCut(limit.net, net);
        EXPECT_EQ(limit.candidates.size(), 1U) << mark;
    }
    EXPECT_FALSE(limitOf("DOT-3AA1500", "50 lb", "R-744"));
    EXPECT_FALSE(limitOf("DOT-4BA400", "50 lb", "R-744"));
}

// Supercritical at 55 degC (critical 26.1 degC) and without a row: no number rather than a wrong one.
TEST(FillLimit, SaysWhatItCannotAnswer) {
    const auto limit = limitOf("DOT-3AA2400", "50 lb", "R-23");
    ASSERT_FALSE(limit);
    EXPECT_NE(limit.error().text().find("critical"), std::string::npos);
    const auto single = limitOf("DOT-39", "26.2 lb", "R-410A");
    ASSERT_FALSE(single);
    EXPECT_NE(single.error().wrong.find("never refilled"), std::string::npos);
}

// Every named row of 173.304a(a)(2) whose gas has property data: each type at its least service pressure has
// the row's figure, and five psi below it the row does not authorise it.
TEST(FillLimit, EveryNamedRowByEveryType) {
    const Table table = limitsReference("filling-density-49cfr.csv");
    const FillRules& rules = testRules("us");
    int checked = 0;
    for (const auto& row : table.rows) {
        const auto contents = testCatalogue().contents(cellOf(table, row, "r_number"));
        const std::string percent = cellOf(table, row, "max_filling_density_pct_of_water_weight");
        if (!contents) {
            continue;
        }
        for (const std::string type : {"3A", "3AA", "3AL", "3B", "4B", "4BA", "4BW", "4E", "4AA"}) {
            const std::string floor = cellOf(table, row, ("min_sp_psig_" + type).c_str());
            const auto below = [&](int psig) {
                return namedRow(rules, must(Specification::parse(fmt::format("DOT-{}{}", type, psig))),
                                contents.value());
            };
            if (floor.empty()) {
                continue;
            }
            const NamedRow held = below(std::atoi(floor.c_str()));
            ASSERT_NE(held.row, nullptr) << row[0] << type;
            EXPECT_EQ(held.row->tenthPercent, static_cast<int>(std::lround(std::atof(percent.c_str()) * 10)));
            const NamedRow lower = below(std::atoi(floor.c_str()) - 5);
            EXPECT_TRUE(lower.row == nullptr || lower.row->tenthPercent < held.row->tenthPercent);
            ++checked;
        }
    }
    EXPECT_GT(checked, 100);
}

// Every band of 173.304a(d)(1): both ends included, no gap and no overlap in thousandths.
TEST(FillLimit, EveryBandOfGravity) {
    const Table table = limitsReference("filling-density-49cfr.csv");
    std::size_t place = 0;
    std::vector<const DensityRow*> bands;
    for (const DensityRow& row : testRules("us").densities) {
        if (row.petroleum) {
            bands.push_back(&row);
        }
    }
    for (const auto& row : table.rows) {
        const std::string least = cellOf(table, row, "sg60F_min");
        if (least.empty()) {
            continue;
        }
        ASSERT_LT(place, bands.size());
        const DensityRow& band = *bands[place++];
        EXPECT_EQ(band.leastGravity, std::lround(std::atof(least.c_str()) * 1000));
        EXPECT_EQ(band.mostGravity, std::lround(std::atof(cellOf(table, row, "sg60F_max").c_str()) * 1000));
        EXPECT_EQ(band.tenthPercent,
                  std::lround(
                      std::atof(cellOf(table, row, "max_filling_density_pct_of_water_weight").c_str()) * 10));
        EXPECT_TRUE(place == 1 || bands[place - 2]->mostGravity + 1 == band.leastGravity) << least;
    }
    EXPECT_EQ(place, 32U);
    EXPECT_EQ(bands.size(), 32U);
}

// Columns of the reference: the 80 % rule in per cent of water, and liquid-full at 55 degC, against ours in a
// cylinder of 100 lb of water. Practice within the density model's aim of 1 % (4 % for the doubtful rows that
// docs/accuracy.md names); the bound never above the reference by more than 1 %.
TEST(FillLimit, MeetsTheReferenceTable) {
    const Table table = limitsReference("pressure-rating-55C.csv");
    int compared = 0;
    int far = 0;
    for (const auto& row : table.rows) {
        const std::string practice = cellOf(table, row, "max_fill_pct_water_80pct_rule_0.99705");
        const std::string bound = cellOf(table, row, "liquid_full_fill_pct_water_55C_0.99705");
        const auto contents = testCatalogue().contents(row[0]);
        // The reference itself calls the liquid densities of these doubtful by 2 to 4 %.
        const bool doubtful =
            row[0] == "R445A" || row[0] == "R466A" || row[0] == "R470A" || row[0] == "R470B";
        if (practice.empty() || bound.empty() || !contents || doubtful) {
            continue;
        }
        const auto limit = limitOf("DOT-4BA500", "100 lb", row[0]);
        if (!limit || candidateOf(limit.value(), "fill.practice-80") == nullptr) {
            continue; // rows that do not authorise 4BA, or too near the critical point
        }
        ++compared;
        const double found = poundsOf(candidateOf(limit.value(), "fill.practice-80")->net);
        const double deviation = std::abs(found / std::atof(practice.c_str()) - 1);
        far += deviation > 0.01 ? 1 : 0;
        EXPECT_LT(deviation, 0.04) << row[0];
        if (const LimitCandidate* full = candidateOf(limit.value(), "fill.not-full-55C")) {
            // The reference takes water of 0.99705, the law that of 60 degF: 27.737 in3 a pound, 0.9979 kg/l.
            const double reference = std::atof(bound.c_str()) * 0.99705 / 0.9979;
            EXPECT_LT(poundsOf(full->net), reference * 1.01) << row[0];
        }
    }
    EXPECT_GT(compared, 120);
    EXPECT_LE(far, 6);
}

// 0.8 of a denser liquid at 54.4 degC (130 degF) is a lower limit than at 25 degC; a shop's margin never
// lifts.
TEST(FillLimit, TheShopsMarginOnlyLowers) {
    const FillLimit plain = must(limitOf("DOT-4BA400", "47.7 lb", "R-22"));
    const FillLimit hot =
        must(limitOf("DOT-4BA400", "47.7 lb", "R-22", "us", {{0.8, Temperature::fromCelsius(54.4)}}));
    const FillLimit loose =
        must(limitOf("DOT-4BA400", "47.7 lb", "R-22", "us", {{1.0, Temperature::fromCelsius(0)}}));
    EXPECT_LT(hot.net, plain.net);
    EXPECT_EQ(hot.governingRule, "fill.shop");
    EXPECT_EQ(hot.lawful, plain.lawful);
    EXPECT_EQ(loose.net, plain.net);
}

// Property: over random mixtures, the limit is the least candidate, grows with the cylinder, does not depend
// on the order in which the gases are named, and a margin at a hotter temperature never raises it.
TEST(FillLimit, RandomMixturesKeepTheOrder) {
    std::mt19937_64 random(20260914);
    const std::vector<std::string> gases = {"R-22",   "R-410A", "R-134a",  "R-32",
                                            "R-404A", "R-407C", "R-1234yf"};
    for (int round = 0; round < 150; ++round) {
        const std::string one = gases[random() % gases.size()];
        const std::string other = gases[random() % gases.size()];
        const int share = static_cast<int>(random() % 99 + 1);
        const std::string forward = fmt::format("{}:{}+{}:{}", one, share, other, 100 - share);
        const std::string backward = fmt::format("{}:{}+{}:{}", other, 100 - share, one, share);
        const auto limit = limitOf("DOT-4BA500", "47.7 lb", forward);
        ASSERT_TRUE(limit) << forward;
        EXPECT_NEAR(poundsOf(limit.value().net),
                    poundsOf(must(limitOf("DOT-4BA500", "47.7 lb", backward)).net), 1e-5);
        EXPECT_LT(limit.value().net, must(limitOf("DOT-4BA500", "47.8 lb", forward)).net);
        for (const LimitCandidate& candidate : limit.value().candidates) {
            EXPECT_GE(candidate.net, limit.value().net);
        }
        const int celsius = static_cast<int>(random() % 30 + 25);
        const ShopMargin mild{0.8, Temperature::fromCelsius(celsius)};
        const ShopMargin hotter{0.8, Temperature::fromCelsius(celsius + 1)};
        EXPECT_LE(must(limitOf("DOT-4BA500", "47.7 lb", forward, "us", {hotter})).net,
                  must(limitOf("DOT-4BA500", "47.7 lb", forward, "us", {mild})).net);
    }
}

// 28.0 lb of R-22 in 26.2 lb of water: 0.5 lb above the lawful 27.5, at least 3.0 lb must come out.
TEST(FillLimit, OverfilledIsSaidWithWhatHasToComeOut) {
    const FillLimit limit = must(limitOf("DOT-4BA400", "26.2 lb", "R-22"));
    const auto over = overfillFinding(limit, must(Mass::parse("28.0 lb")), "cylinder:A103", "us 2021-01");
    ASSERT_TRUE(over);
    EXPECT_EQ(over->rule, "fill.overfilled");
    EXPECT_EQ(over->severity, Severity::danger);
    EXPECT_NE(over->remedy.find("3.0 lb"), std::string::npos) << over->remedy;
    EXPECT_EQ(over->working.back(), "above the lawful limit by 0.5 lb, above the practice limit by 3.0 lb");
    EXPECT_LT(limit.lawfulRoomLeft(must(Mass::parse("28.0 lb"))), Mass());
    const auto above = overfillFinding(limit, must(Mass::parse("26.0 lb")), "", "");
    ASSERT_TRUE(above);
    EXPECT_EQ(above->severity, Severity::caution);
    EXPECT_EQ(above->working.back(), "above the practice limit by 1.0 lb"); // 26.0 less 25.03, rounded up
    EXPECT_FALSE(overfillFinding(limit, must(Mass::parse("24.8 lb")), "", ""));
}
