// Every row of every table that filling, pressure class and contents read, in every rulebook. Expected
// figures come from tests/standards/limits (49 CFR 173.304a read in a mirror of the eCFR; P200 table 2 from
// MEMORY), not from the tables of the product.
#include "core/rules/contents_rules.h"
#include "tests/rules/limits_fixture.h"

using namespace tarebook;

namespace {

Rulebook bookOf(const std::string& name) {
    return must(Rulebook::load(TAREBOOK_RESOURCE_DIR, name, must(Date::of(2026, 9, 14))));
}

std::vector<std::string> words(std::string text) {
    std::vector<std::string> found;
    std::string word;
    for (const char letter : text + " ") {
        if (letter == ' ' || letter == ';') {
            if (!word.empty()) {
                found.push_back(word);
            }
            word.clear();
        } else {
            word += letter;
        }
    }
    return found;
}

double number(const std::string& text) {
    return text.empty() ? 0 : std::strtod(text.c_str(), nullptr);
}

/// The limit of a named row, in hundredths of a pound of a cylinder of 100 lb of water.
long hundredths(const FillLimit& limit, const char* rule) {
    const LimitCandidate* candidate = candidateOf(limit, rule);
    return candidate == nullptr ? -1 : std::lround(poundsOf(candidate->net) * 100);
}

/// A mark of each authority that can be filled in any rulebook.
std::string markOf(const std::string& authority) {
    return authority == "DOT"  ? "DOT-4BA500"
           : authority == "TC" ? "TC-4BAM35"
           : authority == "UN" ? "UN ISO 22991 PH48"
                               : "EN 13322-1 PH48";
}

constexpr const char* kBooks[] = {"us", "eu", "uk", "ca", "au"};

} // namespace

// 49 CFR 173.304a(a)(2), Table 1: the figure of each row in each packaging that stands in it by name.
TEST(TableRows, EveryDensityRowInEveryPackagingOfIt) {
    const Table table = limitsReference("filling-density-49cfr.csv");
    int checked = 0;
    int rows = 0;
    for (const auto& row : table.rows) {
        const auto contents = testCatalogue().contents(cellOf(table, row, "r_number"));
        const double percent = number(cellOf(table, row, "max_filling_density_pct_of_water_weight"));
        if (!contents || percent == 0 || !cellOf(table, row, "sg60F_min").empty()) {
            continue;
        }
        ++rows;
        std::vector<std::string> marks;
        for (const char* type : {"3A", "3AA", "3AL", "3B", "4B", "4BA", "4BW", "4E", "4AA"}) {
            const std::string floor = cellOf(table, row, fmt::format("min_sp_psig_{}", type).c_str());
            if (!floor.empty()) {
                marks.push_back(type + floor);
            }
        }
        for (const char* column : {"spec_3_and_3E", "other_packagings_in_row"}) {
            for (const std::string& mark : words(cellOf(table, row, column))) {
                marks.push_back(mark);
            }
        }
        if (cellOf(table, row, "spec_4B240ET") == "yes") {
            marks.emplace_back("4B240ET");
        }
        for (const std::string& mark : marks) {
            const auto specification = Specification::parse("DOT-" + mark);
            if (!specification || mark == "3HT2000") {
                continue; // an aircraft cylinder, which the register does not know
            }
            const auto limit = limitOf("DOT-" + mark, "100 lb", cellOf(table, row, "r_number"));
            ASSERT_TRUE(limit) << row[0] << " in " << mark << ": " << limit.error().text();
            // A higher row of the same gas may hold in the same mark; never a lower one.
            EXPECT_GE(hundredths(limit.value(), "fill.named-row"), std::lround(percent * 100))
                << row[0] << " in " << mark;
            EXPECT_EQ(candidateOf(limit.value(), "fill.named-row")->firmness, Firmness::verified);
            ++checked;
        }
    }
    EXPECT_GE(rows, 25);
    EXPECT_GT(checked, 170);
}

// 49 CFR 173.304a(d)(1): a hydrocarbon of that gravity has the figure of its band, at both ends.
TEST(TableRows, EveryBandOfGravityAtBothEnds) {
    const Table table = limitsReference("filling-density-49cfr.csv");
    const FillRules& rules = testRules("us");
    LiquidStates states = LiquidStates::of(testCatalogue(), must(testCatalogue().contents("R-290")), rules);
    int bands = 0;
    for (const auto& row : table.rows) {
        const double least = number(cellOf(table, row, "sg60F_min"));
        if (least == 0) {
            continue;
        }
        ++bands;
        const double most = number(cellOf(table, row, "sg60F_max"));
        for (const double gravity : {least, most}) {
            Saturation& cold = states.states.at(kGravityTemperature);
            cold.densityUncertaintyPercent = 0;
            // Water of 60 degF is 999.016 kg/m3 (CRC Handbook of Chemistry and Physics).
            cold.liquid = Density::fromKilogramsPerCubicMetre((gravity + 0.0002) * 999.016);
            const auto limit = fillLimit(rules, states, must(Specification::parse("DOT-4BA500")),
                                         must(WaterCapacity::parse("100 lb")));
            ASSERT_TRUE(limit);
            EXPECT_EQ(
                hundredths(limit.value(), "fill.lpg"),
                std::lround(number(cellOf(table, row, "max_filling_density_pct_of_water_weight")) * 100))
                << gravity;
        }
    }
    EXPECT_EQ(bands, 32);
}

// P200 table 2 (MEMORY): the ratio of each row from its test pressure on, in each rulebook that has the
// table.
TEST(TableRows, EveryListedRatioFromItsTestPressureOn) {
    const Table table = limitsReference("filling-ratio-p200.csv");
    int checked = 0;
    for (const char* book : {"us", "eu", "uk", "au"}) {
        for (const auto& row : table.rows) {
            const std::string gas = cellOf(table, row, "refrigerant");
            const int bar = std::atoi(cellOf(table, row, "min_test_pressure_bar").c_str());
            const auto contents = testCatalogue().contents(gas);
            if (!contents || bar == 0) {
                continue;
            }
            const long ratio = std::lround(number(cellOf(table, row, "max_filling_ratio_kg_per_l")) * 1000);
            const auto listed = [&](int test) {
                return listedRatio(testRules(book),
                                   must(Specification::parse(fmt::format("UN ISO 22991 PH{}", test))),
                                   contents.value());
            };
            ASSERT_NE(listed(bar).row, nullptr) << book << " " << gas << " " << bar;
            EXPECT_EQ(listed(bar).row->gramsPerLitre, ratio) << book << " " << gas << " " << bar;
            EXPECT_EQ(listed(bar).row->source.firmness, Firmness::memory);
            const ListedRatio below = listed(bar - 1);
            EXPECT_TRUE(below.row == nullptr || below.row->gramsPerLitre < ratio) << gas;
            ++checked;
        }
    }
    EXPECT_GT(checked, 130);
}

// Each row of filling-conditions: for its marks the candidate or the comparison is there with factor and
// temperature of the row; for other marks it is not. R-134a has no row of its own in 173.304a.
TEST(TableRows, EveryFillingConditionForItsMarksOnly) {
    int checked = 0;
    for (const char* book : kBooks) {
        const Rulebook rulebook = bookOf(book);
        for (const RuleRow& row : rulebook.table("filling-conditions")->rows) {
            const std::string kind = row.cell("kind");
            const auto authorities = words(row.cell("marks"));
            const Temperature at = Temperature::fromCelsius(number(row.cell("celsius")));
            for (const char* authority : {"DOT", "TC", "UN", "EN"}) {
                const bool covered =
                    std::find(authorities.begin(), authorities.end(), authority) != authorities.end();
                const std::string mark = markOf(authority);
                // R-454B (A2L) has no row in any table, so that every condition is computed.
                const auto limit = limitOf(mark, "50 l", "R-454B", book);
                ++checked;
                if (kind == "service" || kind == "test") {
                    const PressureVerdict verdict = classOf(mark, "R-454B", book);
                    EXPECT_EQ(verdict.rule == row.cell("rule"), covered)
                        << book << " " << mark << " " << verdict.rule;
                    continue;
                }
                ASSERT_TRUE(limit) << book << " " << mark << ": " << limit.error().text();
                const LimitCandidate* candidate = candidateOf(limit.value(), row.cell("rule"));
                ASSERT_EQ(candidate != nullptr, covered) << book << " " << mark << " " << row.cell("rule");
                if (candidate == nullptr) {
                    continue;
                }
                EXPECT_EQ(candidate->citation, row.section);
                EXPECT_EQ(candidate->firmness, row.firmness);
                EXPECT_EQ(candidate->lawful, kind == "liquid");
                const auto state =
                    saturationAt(testCatalogue(), must(testCatalogue().contents("R-454B")), at);
                ASSERT_TRUE(state);
                const double full = state.value().liquid.kilogramsPerCubicMetre() * 0.050;
                // The practice takes gravities against water of 0.99705, the capacity water of 0.9979 kg/l.
                const double most = kind == "practice" ? 1.0010 : 1.0;
                EXPECT_LE(candidate->net.kilograms(), number(row.cell("factor")) * full * most);
                EXPECT_GT(candidate->net.kilograms(), number(row.cell("factor")) * full * 0.96);
            }
        }
    }
    EXPECT_EQ(checked, 4 * (6 + 4 + 4 + 6 + 4));
}

// 173.304(b) excepts carbon dioxide, R-1132a and nitrous oxide from the liquid-full rule by name.
TEST(TableRows, TheExemptGasesOfTheLiquidFullRule) {
    for (const FillCondition& condition : testRules("us").conditions) {
        EXPECT_EQ(condition.exempt.size(), condition.rule == "fill.not-full-55C" ? 3U : 0U) << condition.rule;
    }
}

// Each row of contents.csv, against what its sources say (named in the row): AHRI 700 0.5 % by mass and 1.5 %
// by volume; TM 5-3810-307-24 65 degF and 1 psi; 12 hours MEMORY; a degree Fahrenheit PRACTICE; the scheme
// of Australia 5 and 40 %.
TEST(TableRows, EveryRowOfContentsIsReadByItsRule) {
    for (const char* book : kBooks) {
        const Rulebook rulebook = bookOf(book);
        const auto rules = ContentsRules::from(rulebook);
        ASSERT_TRUE(rules) << rules.error().text();
        const ContentsRules& its = rules.value();
        std::map<std::string, std::pair<double, RowSource>> read = {
            {"contents.same-gas", {0, its.sameGas}},
            {"contents.unknown-gas", {0, its.unknownGas}},
            {"contents.change", {0, its.change}},
            {"contents.burn-out", {0, its.burnOut}},
            {"contents.flammable", {0, its.flammable}},
            {"contents.clear", {0, its.clear}},
            {"contents.mixed", {its.mixed.value, its.mixed.source}},
            {"contents.air", {its.air.value, its.air.source}},
            {"identity.rest", {its.restHours.value, its.restHours.source}},
            {"identity.least-temperature", {its.leastCelsius.value, its.leastCelsius.source}},
            {"identity.gauge-error", {its.gaugeKilopascal.value, its.gaugeKilopascal.source}},
            {"identity.thermometer-error", {its.thermometerKelvin.value, its.thermometerKelvin.source}}};
        if (its.flammableHydrocarbon && its.flammableOther) {
            read["contents.flammable-hydrocarbon"] = {its.flammableHydrocarbon->value,
                                                      its.flammableHydrocarbon->source};
            read["contents.flammable-other"] = {its.flammableOther->value, its.flammableOther->source};
            EXPECT_DOUBLE_EQ(its.flammableHydrocarbon->value, 0.05);
            EXPECT_DOUBLE_EQ(its.flammableOther->value, 0.40);
        }
        EXPECT_EQ(its.flammableHydrocarbon.has_value(), std::string(book) == "au");
        const RuleTable& table = *rulebook.table("contents");
        EXPECT_EQ(table.rows.size(), read.size()) << book;
        for (const RuleRow& row : table.rows) {
            ASSERT_TRUE(read.contains(row.cell("rule"))) << book << " " << row.cell("rule");
            const auto& [value, source] = read[row.cell("rule")];
            EXPECT_EQ(source.section, row.section);
            EXPECT_EQ(source.firmness, row.firmness);
            const bool percent = row.cell("unit").starts_with("%");
            EXPECT_NEAR(value, number(row.cell("figure")) / (percent ? 100 : 1), 1e-12);
            EXPECT_FALSE(row.cell("says").empty());
        }
        EXPECT_DOUBLE_EQ(its.mixed.value, 0.005);
        EXPECT_DOUBLE_EQ(its.air.value, 0.015);
        EXPECT_DOUBLE_EQ(its.restHours.value, 12);
        EXPECT_NEAR(Temperature::fromCelsius(its.leastCelsius.value).fahrenheit(), 65, 0.1);
        EXPECT_NEAR(its.gaugeKilopascal.value / kKilopascalPerPsi, 1, 0.01);
        EXPECT_NEAR(its.thermometerKelvin.value * 9 / 5, 1, 0.01);
    }
}
