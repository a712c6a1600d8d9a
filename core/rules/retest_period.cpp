#include "core/rules/retest_period.h"

#include <algorithm>
#include <charconv>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/rules/rule_cells.h"

namespace tarebook {

namespace {

// 49 CFR 180.209(b)(1): water capacity of 125 lb or less, made after 1945.
constexpr std::int64_t kMilligramsPerPoundTimes100 = 45'359'237;
constexpr WaterCapacity kMostForStar =
    WaterCapacity::ofWater(Mass::fromMilligrams(125 * kMilligramsPerPoundTimes100 / 100));
constexpr int kLastYearWithoutStar = 1945;
// 49 CFR 180.209(d): water capacity of 12 lb or less and service pressure of 300 psig or less.
constexpr WaterCapacity kMostForVisual =
    WaterCapacity::ofWater(Mass::fromMilligrams(12 * kMilligramsPerPoundTimes100 / 100));
constexpr int kMostPsigForVisual = 300;

bool givesLongerInterval(const std::string& suffix) {
    return suffix == "S" || suffix == "E" || suffix == "star";
}

bool starHolds(const RetestFacts& facts) {
    return facts.manufactured.year() > kLastYearWithoutStar &&
           (!facts.waterCapacity || *facts.waterCapacity <= kMostForStar);
}

/// Of UN and EN receptacles ammonia has the shorter period, recovered or not.
ServiceKind effectiveService(const RetestFacts& facts) {
    if (facts.service == ServiceKind::ammonia && facts.specification.metricTestMark()) {
        return ServiceKind::ammonia;
    }
    return facts.usedForRecoverySinceTest ? ServiceKind::recovery : facts.service;
}

/// The letter that may count: none without a test (a star is also stamped behind the first date).
std::string countedSuffix(const RetestFacts& facts) {
    if (facts.markSuffix == "star") {
        return starHolds(facts) ? "star" : "";
    }
    return facts.lastTest ? facts.markSuffix : "";
}

const RuleRow* chooseRow(const RuleTable& table, const std::vector<std::string>& keys, ServiceKind service,
                         const std::string& suffix) {
    const std::string serviceName = serviceWord(service);
    const std::string markName = suffix.empty() ? "none" : suffix;
    for (const RuleRow& row : table.rows) {
        const std::string& rowService = row.cell("service");
        const std::string& rowMark = row.cell("mark");
        if ((rowService == "any" || rowService == serviceName) && (rowMark == "any" || rowMark == markName) &&
            typesFit(row.cell("types"), keys)) {
            return &row;
        }
    }
    return nullptr;
}

/// What the letter behind the date, the service and the size have to say besides the period.
std::vector<Finding> notesOf(const Rulebook& rulebook, const RetestFacts& facts, const RuleRow& row) {
    std::vector<Finding> notes;
    const bool letterLost = row.cell("mark") == "any" && givesLongerInterval(facts.markSuffix);
    const ServiceKind service = effectiveService(facts);
    if (facts.usedForRecoverySinceTest && facts.service != ServiceKind::recovery) {
        notes.push_back(
            findingOf(rulebook, row, "retest.interval-ended", Severity::caution,
                      fmt::format("One use for recovery ended the clean service: {} years count from the "
                                  "last mark.",
                                  row.cell("repeat_years"))));
        notes.back().firmness = Firmness::reading;
    } else if (letterLost && (service == ServiceKind::recovery || service == ServiceKind::general)) {
        notes.push_back(
            findingOf(rulebook, row, "retest.letter-without-service", Severity::caution,
                      fmt::format("The letter {} counts only in clean service; the next test must be "
                                  "the {}.",
                                  facts.markSuffix, row.cell("method"))));
        notes.back().firmness = Firmness::reading;
    } else if (letterLost && facts.lastTest) {
        notes.push_back(
            findingOf(rulebook, row, "retest.letter-unsuited", Severity::caution,
                      fmt::format("The letter {} gives no longer interval here; look at the stamp again.",
                                  facts.markSuffix)));
    }
    if (rulebook.name() == "us" && facts.waterCapacity && *facts.waterCapacity <= kMostForVisual &&
        !facts.specification.pressureInBar && facts.specification.servicePressure > 0 &&
        facts.specification.servicePressure <= kMostPsigForVisual && row.cell("repeat_years") != "never") {
        notes.push_back(
            findingOf(rulebook, row, "retest.visual-enough", Severity::note,
                      "Small and of low pressure: a complete external visual inspection is enough when it "
                      "falls due."));
        notes.back().citation = "49 CFR 180.209(d)";
        notes.back().firmness = Firmness::verified;
    }
    return notes;
}

std::vector<std::string> workingOf(const Rulebook& rulebook, const RetestFacts& facts,
                                   const RetestPeriod& period) {
    std::vector<std::string> lines;
    const MonthYear from = facts.lastTest.value_or(facts.manufactured);
    lines.push_back(facts.lastTest
                        ? fmt::format("last mark {}, letter behind it: {}",
                                      facts.lastTestYearOnly ? std::to_string(from.year()) : from.text(),
                                      facts.markSuffix.empty() ? "none" : facts.markSuffix)
                        : fmt::format("no retest mark: the month of manufacture counts, {}", from.text()));
    lines.push_back(fmt::format("service since then: {}", serviceWord(effectiveService(facts))));
    if (!period.row->cell("condition").empty()) {
        lines.push_back("holds for: " + period.row->cell("condition"));
    }
    if (period.due) {
        lines.push_back(fmt::format("{} + {} years = {} ({})", from.text(), period.years, period.due->text(),
                                    period.row->cell("method")));
    }
    if (facts.lastTestYearOnly) {
        lines.emplace_back("the mark shows no month: the strict reading counts from January");
    }
    if (!period.row->cell("remark").empty()) {
        lines.push_back("remark: " + period.row->cell("remark"));
    }
    if (rulebook.predatesEdition()) {
        lines.push_back(fmt::format("judged by the first edition kept here, in force from {}",
                                    rulebook.holdsFrom().text()));
    }
    return lines;
}

} // namespace

std::vector<std::string> typeKeys(const Specification& specification) {
    std::vector<std::string> keys;
    if (specification.suffix.empty()) {
        keys.push_back(specification.type);
    } else {
        keys.push_back(
            fmt::format("{}{}{}", specification.type, specification.servicePressure, specification.suffix));
    }
    keys.push_back(specification.authority);
    if (!specification.refillable()) {
        keys.emplace_back("NR");
    }
    keys.emplace_back("*");
    return keys;
}

bool typesFit(const std::string& types, const std::vector<std::string>& keys) {
    std::string_view rest = types;
    while (!rest.empty()) {
        const std::size_t cut = std::min(rest.find(' '), rest.size());
        if (std::find(keys.begin(), keys.end(), rest.substr(0, cut)) != keys.end()) {
            return true;
        }
        rest.remove_prefix(std::min(cut + 1, rest.size()));
    }
    return false;
}

Result<RetestPeriod> retestPeriod(const Rulebook& rulebook, const RetestFacts& facts) {
    const RuleTable* table = rulebook.table("requalification");
    if (table == nullptr) {
        return Error{fmt::format("the rulebook {} has no table requalification", rulebook.edition()),
                     "check that the resources are in their place"};
    }
    RetestPeriod period;
    period.row =
        chooseRow(*table, typeKeys(facts.specification), effectiveService(facts), countedSuffix(facts));
    if (period.row == nullptr) {
        return Error{fmt::format("the rulebook {} knows no retest period for {}", rulebook.edition(),
                                 facts.specification.text()),
                     "ask an approved tester, and check the mark"};
    }
    const std::string& years = period.row->cell(facts.lastTest ? "repeat_years" : "first_years");
    if (years.empty()) {
        period.markAccepted = false;
    } else if (years != "never") {
        const auto [end, code] = std::from_chars(years.data(), years.data() + years.size(), period.years);
        if (code != std::errc() || end != years.data() + years.size() || period.years < 1) {
            return Error{fmt::format("{}: {} is no number of years", period.row->cell("rule"),
                                     tarebook::quoted(years)),
                         "the table requalification has whole years or never"};
        }
        period.due = facts.lastTest.value_or(facts.manufactured).plusMonths(12 * period.years);
    }
    period.working = workingOf(rulebook, facts, period);
    period.notes = notesOf(rulebook, facts, *period.row);
    return period;
}

} // namespace tarebook
