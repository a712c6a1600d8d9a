// Every row of the tables requalification and condition, in every rulebook. Years of the United States come
// from tests/standards/limits/requalification-49cfr.csv (49 CFR 180.209 read in a mirror of the eCFR); those
// of other rulebooks are the table's own, as their sources were not read (MEMORY, DOUBT): there the test is
// that the rule and its status come through.
#include "core/rules/retest.h"
#include "core/rules/retest_period.h"
#include "tests/rules/limits_fixture.h"

using namespace tarebook;

namespace {

const MonthYear kMade = must(MonthYear::parse("2002-03"));
const MonthYear kTested = must(MonthYear::parse("2014-03"));
const Date kOn = must(Date::parse("2021-01-10")); // the reference table has the periods of December 2020

Rulebook bookOf(const std::string& name) {
    return must(Rulebook::load(TAREBOOK_RESOURCE_DIR, name, kOn));
}

std::vector<std::string> pieces(const std::string& text, const std::string& separators) {
    std::vector<std::string> found(1);
    for (const char letter : text) {
        if (separators.find(letter) == std::string::npos) {
            found.back() += letter;
        } else if (!found.back().empty()) {
            found.emplace_back();
        }
    }
    return found;
}

/// A mark that has the key of a row: `4BA` as DOT-4BA400, `4BAM` as TC-4BAM28.
std::string markOf(const std::string& key) {
    static const std::map<std::string, std::string> kWhole = {
        {"3", "DOT-3"},           {"3E", "DOT-3E1800"},       {"3A480X", "DOT-3A480X"},
        {"4AA", "DOT-4AA480"},    {"4B240ET", "DOT-4B240ET"}, {"4BM17ET", "TC-4BM17ET"},
        {"39", "DOT-39"},         {"NR", "UN NR PH48"},       {"UN", "UN ISO 22991 PH42"},
        {"*", "EN 13322-1 PH42"}, {"DOT", "DOT-4BA400"},      {"TC", "TC-4BAM28"},
        {"4AA480", "DOT-4AA480"}};
    if (const auto found = kWhole.find(key); found != kWhole.end()) {
        return found->second;
    }
    return key.ends_with('M') ? "TC-" + key + "28" : "DOT-" + key + "400";
}

RetestFacts factsFor(const std::string& key, ServiceKind service, const std::string& suffix, bool tested) {
    RetestFacts facts{.specification = must(Specification::parse(markOf(key))),
                      .manufactured = tested ? kMade : kTested,
                      .lastTest = {},
                      .markSuffix = suffix,
                      .service = service,
                      .filledOn = {},
                      .waterCapacity = {},
                      .condition = {},
                      .on = kOn};
    if (tested) {
        facts.lastTest = kTested;
    }
    return facts;
}

ServiceKind serviceOf(const std::string& word) {
    return word == "any" ? ServiceKind::general : must(parseService(word));
}

std::string dueAfter(const std::string& years) {
    return years == "never" || years == "none" ? "never"
                                               : kTested.plusMonths(12 * std::atoi(years.c_str())).text();
}

} // namespace

// 180.209(a) Table 1, (b), (d), (e), (g), (h); 178.65; 180.207 (period of UN receptacles MEMORY).
TEST(RetestRows, EveryRowOfTheLawByTypeServiceAndLetter) {
    const Table table = limitsReference("requalification-49cfr.csv");
    const Rulebook us = bookOf("us");
    std::set<std::string> left;
    int checked = 0;
    for (const auto& row : table.rows) {
        const std::string types = cellOf(table, row, "specification");
        const std::string condition = cellOf(table, row, "service_condition");
        std::string repeat = cellOf(table, row, "repeat_period_years");
        // Left to the permit, to exporters, to aircraft, to acetylene, or to another row: coverage.csv.
        if (types.starts_with("special") || types.starts_with("foreign") || types.starts_with("any") ||
            types.starts_with("TC") || types == "3HT" || types.starts_with("8")) {
            left.insert(types);
            continue;
        }
        const std::string letter = cellOf(table, row, "mark_suffix");
        const std::string suffix = letter == "S" || letter == "E" ? letter
                                   : letter.starts_with("five")   ? "star"
                                                                  : "";
        const bool ammonia = condition.find("ammonia") != std::string::npos;
        const bool general = condition.starts_with("any") || condition.starts_with("general") ||
                             condition == "non-refillable" || condition == "US use";
        const ServiceKind service = ammonia   ? ServiceKind::ammonia
                                    : general ? ServiceKind::general
                                              : ServiceKind::clean;
        if (types.starts_with("UN")) {
            repeat = "10"; // MEMORY
        }
        for (const std::string& type : pieces(types.starts_with("UN") ? "UN" : types, ", ")) {
            const auto verdict = retest(us, factsFor(type, service, suffix, true));
            ASSERT_TRUE(verdict) << type << ": " << verdict.error().text();
            EXPECT_EQ(verdict.value().dueText(), dueAfter(repeat)) << type << ", " << condition;
            ++checked;
            const std::string first = cellOf(table, row, "first_period_years");
            if (std::isdigit(static_cast<unsigned char>(first.front())) != 0 && suffix != "E") {
                const auto made = retest(us, factsFor(type, service, suffix, false));
                ASSERT_TRUE(made);
                EXPECT_EQ(made.value().dueText(), dueAfter(first)) << type << ", first";
            }
        }
    }
    EXPECT_EQ(left.size(), 8U);
    EXPECT_GT(checked, 40);
}

// Each row of each rulebook is reached by each of its types, and its rule, section and status come through.
TEST(RetestRows, EveryRowOfEveryRulebookIsReached) {
    int checked = 0;
    for (const std::string& name : Rulebook::names()) {
        const Rulebook book = bookOf(name);
        const RuleTable& table = *book.table("requalification");
        for (const RuleRow& row : table.rows) {
            for (const std::string& key : pieces(row.cell("types"), " ")) {
                const std::string mark =
                    row.cell("mark") == "any" || row.cell("mark") == "none" ? "" : row.cell("mark");
                const RetestFacts facts = factsFor(key, serviceOf(row.cell("service")), mark, true);
                const auto period = retestPeriod(book, facts);
                ASSERT_TRUE(period) << name << " " << key;
                EXPECT_EQ(period.value().row, &row) << name << " " << key << " " << row.cell("rule")
                                                    << " is hidden by " << period.value().row->cell("rule");
                const std::string& years = row.cell("repeat_years");
                EXPECT_EQ(period.value().markAccepted, !years.empty());
                EXPECT_EQ(period.value().due.has_value(), !years.empty() && years != "never");
                const auto verdict = retest(book, facts);
                ASSERT_TRUE(verdict);
                EXPECT_EQ(verdict.value().rule, row.cell("rule"));
                EXPECT_EQ(verdict.value().citation, row.section);
                EXPECT_EQ(verdict.value().firmness, row.firmness);
                ++checked;
            }
        }
    }
    EXPECT_GT(checked, 130);
}

// Each happening of each rulebook bars filling whatever the date; what it says of moving and of for ever
// holds, filled and empty.
TEST(RetestRows, EveryHappeningOverridesTheDate) {
    const std::map<std::string, std::function<void(CylinderCondition&)>> kFlags = {
        {"service-life", [](CylinderCondition&) {}}, // a month of the nameplate, below
        {"condemned", [](CylinderCondition& its) { its.condemned = true; }},
        {"over-pressurised", [](CylinderCondition& its) { its.overPressurised = true; }},
        {"heat", [](CylinderCondition& its) { its.heatDamaged = true; }},
        {"leak", [](CylinderCondition& its) { its.leaking = true; }},
        {"damage", [](CylinderCondition& its) { its.damaged = true; }},
        {"wall-metal", [](CylinderCondition& its) { its.wallMetalRemoved = true; }},
        {"ordered", [](CylinderCondition& its) { its.ordered = true; }},
        {"class-8", [](CylinderCondition& its) { its.heldClass8Liquid = true; }},
        {"rejected", [](CylinderCondition& its) { its.rejected = true; }},
        {"tare-loss", [](CylinderCondition& its) {
             its.officialTare = must(Mass::parse("28.0 lb"));
             its.weighedTare = must(Mass::parse("26.6 lb")); // 5 % exactly
         }}};
    int checked = 0;
    for (const std::string& name : Rulebook::names()) {
        const Rulebook book = bookOf(name);
        const bool dot = name == "us" || name == "ca";
        for (const RuleRow& row : book.table("condition")->rows) {
            ASSERT_TRUE(kFlags.contains(row.cell("happening"))) << row.cell("happening");
            const auto keys = pieces(row.cell("types"), " ");
            for (const std::string& key : keys) {
                const bool any = key == "*";
                // Whether a European rulebook takes DOT marks at all is another row's matter.
                RetestFacts facts = factsFor(any && dot ? "4BA" : key, ServiceKind::recovery, "", true);
                const auto before = retest(book, facts);
                ASSERT_TRUE(before) << name << " " << key;
                kFlags.at(row.cell("happening"))(facts.condition);
                if (row.cell("happening") == "service-life") {
                    facts.serviceUntil = must(MonthYear::of(2010, 1));
                }
                const RetestVerdict empty = must(retest(book, facts));
                facts.filledOn = must(Date::parse("2017-12-01"));
                const RetestVerdict filled = must(retest(book, facts));
                EXPECT_FALSE(empty.fillAllowed || filled.fillAllowed) << name << " " << row.cell("rule");
                EXPECT_EQ(filled.rule, row.cell("rule"));
                EXPECT_EQ(filled.citation, row.section);
                EXPECT_EQ(filled.firmness, row.firmness);
                EXPECT_EQ(filled.neverRefilled, row.cell("forever") == "yes");
                const bool empties = row.cell("ship") == "empty-only";
                EXPECT_EQ(filled.shipAllowed, !empties && before.value().shipAllowed) << name << key;
                EXPECT_EQ(empty.shipAllowed, before.value().shipAllowed) << name << key;
                EXPECT_EQ(filled.findings.back().severity, empties ? Severity::danger : Severity::refusal);
                EXPECT_FALSE(filled.findings.back().remedy.empty());
                ++checked;
            }
        }
    }
    EXPECT_GT(checked, 130);
}
