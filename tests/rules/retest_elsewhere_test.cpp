// Periods outside the United States against the reference and not against the product's tables: the column of
// test periods in table 2 of P200 (tests/standards/limits/filling-ratio-p200.csv, MEMORY), the pattern of 49
// CFR 180.209(a) and (b) for Canada (MEMORY), ten years in Australia (MEMORY, doubtful). What befalls a
// cylinder is answered in every rulebook; test pressures are those of the requalification reference.
#include "core/rules/retest.h"
#include "core/rules/retest_period.h"
#include "tests/rules/book_fixture.h"

using namespace tarebook;

namespace {

RetestFacts factsOf(const std::string& mark, ServiceKind service, const std::string& letter = "") {
    return {.specification = must(Specification::parse(mark)),
            .manufactured = must(MonthYear::parse("2012-05")),
            .lastTest = must(MonthYear::parse("2020-05")),
            .markSuffix = letter,
            .service = service,
            .filledOn = {},
            .waterCapacity = {},
            .condition = {},
            .on = must(Date::parse("2023-01-10"))};
}

std::string due(const char* book, const std::string& mark, ServiceKind service,
                const std::string& letter = "") {
    return must(retest(bookOn(book), factsOf(mark, service, letter))).dueText();
}

} // namespace

// P200 table 2: ammonia, group 2TC, has five years, everything else that a refrigerant shop meets ten.
TEST(RetestElsewhere, PeriodsOfEveryListedGas) {
    const Table table = limitsReference("filling-ratio-p200.csv");
    int fives = 0;
    int tens = 0;
    for (const auto& row : table.rows) {
        const std::string gas = cellOf(table, row, "refrigerant");
        const std::string years = cellOf(table, row, "test_period_years");
        const bool ammonia = gas == "R-717";
        if (years.empty()) {
            continue;
        }
        ASSERT_EQ(years == "5", ammonia) << gas;
        (ammonia ? fives : tens) += 1;
        const std::string expected = ammonia ? "2025-05" : "2030-05";
        const ServiceKind service = ammonia ? ServiceKind::ammonia : ServiceKind::clean;
        for (const char* book : {"us", "eu", "uk", "ca", "au"}) {
            EXPECT_EQ(due(book, "UN ISO 22991 PH42", service), expected) << book << " " << gas;
        }
        for (const char* book : {"eu", "uk", "au"}) {
            EXPECT_EQ(due(book, "EN 13322-1 PH42", service), expected) << book << " " << gas;
        }
    }
    EXPECT_EQ(fives, 1);
    EXPECT_GT(tens, 30);
}

// A period that is over is told: what was due in May 2025 is not filled in June.
TEST(RetestElsewhere, AmmoniaIsNotFilledAfterFiveYears) {
    for (const char* book : {"us", "eu", "uk", "ca", "au"}) {
        RetestFacts facts = factsOf("UN ISO 22991 PH42", ServiceKind::ammonia);
        facts.on = must(Date::parse("2025-04-30"));
        EXPECT_TRUE(must(retest(bookOn(book), facts)).fillAllowed) << book;
        facts.on = must(Date::parse("2025-06-01"));
        EXPECT_FALSE(must(retest(bookOn(book), facts)).fillAllowed) << book;
    }
}

// CA-07: five years as the base, ten in clean service and for a star, five after a visual inspection: MEMORY.
TEST(RetestElsewhere, CanadianPeriods) {
    EXPECT_EQ(due("ca", "TC-4BAM28", ServiceKind::recovery), "2025-05");
    EXPECT_EQ(due("ca", "DOT-4BA400", ServiceKind::recovery), "2025-05");
    EXPECT_EQ(due("ca", "TC-4BWM28", ServiceKind::clean), "2030-05");
    EXPECT_EQ(due("ca", "TC-4BWM28", ServiceKind::clean, "E"), "2025-05");
    EXPECT_EQ(due("ca", "TC-3AAM138", ServiceKind::clean, "star"), "2030-05");
    EXPECT_EQ(due("ca", "TC-3AAM138", ServiceKind::clean), "2025-05");
    EXPECT_EQ(due("ca", "TC-39M", ServiceKind::general), "never");
    EXPECT_EQ(due("ca", "DOT-3E1800", ServiceKind::general), "never");
}

// UN-PI-03, AU-04 (MEMORY): ten years; ADR 1.1.4.7 (MEMORY): no DOT or TC marks.
TEST(RetestElsewhere, EuropeAndAustralia) {
    for (const char* book : {"eu", "uk", "au"}) {
        EXPECT_EQ(due(book, "EN 13322-1 PH42", ServiceKind::recovery), "2030-05") << book;
        for (const char* mark : {"DOT-4BA400", "TC-4BAM28"}) {
            const RetestVerdict verdict = must(retest(bookOn(book), factsOf(mark, ServiceKind::clean)));
            EXPECT_EQ(verdict.rule, "retest.mark-not-accepted") << book << mark;
            EXPECT_FALSE(verdict.fillAllowed);
        }
    }
}

// ADR 4.1.6.10 (UN-PI-01, read in the 2019 edition): once the inspection is due it is not filled, but may be
// carried for inspection or disposal, intermediate moves included. It is offered where that law holds only.
TEST(RetestElsewhere, OneTripToBeEmptiedIsOfferedWhereTheLawHasIt) {
    for (const char* book : {"eu", "uk"}) {
        RetestFacts facts = factsOf("EN 13322-1 PH42", ServiceKind::recovery);
        facts.on = must(Date::parse("2031-03-10"));
        facts.filledOn = must(Date::parse("2030-08-01"));
        const RetestVerdict verdict = must(retest(bookOn(book), facts));
        EXPECT_TRUE(verdict.onlyToTester) << book;
        const auto late = std::find_if(verdict.findings.begin(), verdict.findings.end(),
                                       [](const Finding& one) { return one.rule == "retest.filled-late"; });
        ASSERT_NE(late, verdict.findings.end()) << book;
        EXPECT_NE(late->remedy.find("one trip as it is, to be emptied"), std::string::npos) << late->remedy;
        EXPECT_NE(late->remedy.find("ADR 4.1.6.10"), std::string::npos) << late->remedy;
    }
}

// 49 CFR 180.205(d), (e), (h), (i), 180.209(c); ADR 4.1.6.12, 4.1.6.13 ("not examined and found in good
// order"): no rulebook is silent about a cylinder that is held back.
TEST(RetestElsewhere, EveryHappeningHasARowInEveryRulebook) {
    const std::vector<std::pair<const char*, bool CylinderCondition::*>> happenings = {
        {"retest.damage", &CylinderCondition::damaged},
        {"retest.leak", &CylinderCondition::leaking},
        {"retest.heat", &CylinderCondition::heatDamaged},
        {"retest.over-pressurised", &CylinderCondition::overPressurised},
        {"retest.wall-metal", &CylinderCondition::wallMetalRemoved},
        {"retest.class-8", &CylinderCondition::heldClass8Liquid},
        {"retest.ordered", &CylinderCondition::ordered},
        {"retest.rejected", &CylinderCondition::rejected},
        {"retest.condemned", &CylinderCondition::condemned}};
    for (const std::string& name : Rulebook::names()) {
        for (const auto& [rule, flag] : happenings) {
            const bool metric = name != "us" && name != "ca";
            RetestFacts facts = factsOf(metric ? "EN 13322-1 PH42" : "DOT-4BA400", ServiceKind::clean);
            facts.condition.*flag = true;
            const RetestVerdict verdict = must(retest(bookOn(name), facts));
            EXPECT_EQ(verdict.rule, rule) << name;
            EXPECT_FALSE(verdict.fillAllowed) << name << " " << rule;
            EXPECT_FALSE(verdict.citation.empty() || verdict.findings.empty()) << name << " " << rule;
        }
    }
}

// 180.209(a) Table 1, (b), (e), (h), column of the test pressure in the reference: what the tester's paper
// must show. "As Table 1" is that of the type.
TEST(RetestElsewhere, TestPressuresOfTheUnitedStates) {
    const Table table = limitsReference("requalification-49cfr.csv");
    int checked = 0;
    for (const auto& row : table.rows) {
        std::string types = cellOf(table, row, "specification");
        const std::string pressure = cellOf(table, row, "min_test_pressure");
        const std::string letter = cellOf(table, row, "mark_suffix");
        if (types == "3HT" || pressure.find(" x ") == std::string::npos || types.starts_with("foreign")) {
            continue; // 3HT and EX: coverage.csv says that they are left out
        }
        const bool clean =
            cellOf(table, row, "service_condition").find("noncorrosive") != std::string::npos ||
            letter == "S" || letter.starts_with("five");
        types += ",";
        for (std::size_t cut = 0; (cut = types.find(',')) != std::string::npos; types.erase(0, cut + 1)) {
            std::string type = types.substr(0, cut);
            type.erase(0, type.find_first_not_of(' '));
            if (type == "4AA480" || type == "4B240ET") {
                type = type == "4AA480" ? "DOT-4AA480" : "DOT-4B240ET";
            } else {
                type = "DOT-" + type + "400";
            }
            const auto period = must(
                retestPeriod(bookOn("us"), factsOf(type, clean ? ServiceKind::clean : ServiceKind::general,
                                                   letter == "S"                ? "S"
                                                   : letter.starts_with("five") ? "star"
                                                                                : "")));
            const std::string said = period.row->cell("test_pressure");
            EXPECT_EQ(said.substr(0, said.find(" marked")).substr(0, said.find(" service")),
                      pressure.substr(0, pressure.find(" marked")).substr(0, pressure.find(" service")))
                << type << " " << letter;
            ++checked;
        }
    }
    EXPECT_GE(checked, 25);
    EXPECT_EQ(
        must(retestPeriod(bookOn("us"), factsOf("DOT-3", ServiceKind::general))).row->cell("test_pressure"),
        "3000 psig");
}
