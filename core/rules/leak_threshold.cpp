#include "core/rules/leak_threshold.h"

#include <charconv>
#include <utility>

#include <fmt/format.h>

#include "core/base/text.h"

namespace tarebook {

namespace {

Result<LeakThreshold> thresholdOf(const RuleRow& row) {
    const std::string& digits = row.cell("percent");
    int percent = 0;
    const auto [end, code] = std::from_chars(digits.data(), digits.data() + digits.size(), percent);
    const auto charge = Mass::parse(row.cell("charge_from_lb") + " lb");
    const std::string& compare = row.cell("compare");
    if (code != std::errc() || end != digits.data() + digits.size() || percent <= 0 || !charge ||
        (compare != "over" && compare != "from")) {
        return Error{fmt::format("leak-thresholds.csv: the row of {}, {} cannot be read",
                                 row.cell("refrigerants"), row.cell("use")),
                     "percent is a whole number, charge_from_lb a number, compare over or from"};
    }
    return LeakThreshold{percent, compare == "from", charge.value(), row};
}

Result<std::optional<LeakThreshold>> find(const Rulebook& book, LeakLaw law, std::string_view period,
                                          std::string_view use, Mass fullCharge) {
    const RuleTable* table = book.table("leak-thresholds");
    if (table == nullptr) {
        return std::optional<LeakThreshold>();
    }
    for (const RuleRow& row : table->rows) {
        if (row.cell("refrigerants") != (law == LeakLaw::ods ? "ods" : "hfc") ||
            row.cell("period") != period || row.cell("use") != use) {
            continue;
        }
        const auto threshold = thresholdOf(row);
        if (!threshold) {
            return threshold.error();
        }
        if (fullCharge >= threshold.value().chargeFrom) {
            return std::make_optional(threshold.value());
        }
    }
    return std::optional<LeakThreshold>();
}

} // namespace

Result<std::optional<LeakThreshold>> leakThreshold(const Rulebook& book, LeakLaw law, std::string_view use,
                                                   Mass fullCharge) {
    const std::string named = lowered(trimmed(use));
    const bool known = named == "commercial refrigeration" || named == "industrial process refrigeration" ||
                       named == "comfort cooling";
    return find(book, law, "12-months", known ? named : "other", fullCharge);
}

Result<std::optional<LeakThreshold>> chronicLeakThreshold(const Rulebook& book, LeakLaw law,
                                                          Mass fullCharge) {
    return find(book, law, "calendar-year", "any", fullCharge);
}

Finding leakFinding(const Rulebook& book, const LeakThreshold& threshold, std::string systemText,
                    const std::string& rateText, std::vector<std::string> working) {
    const bool chronic = threshold.row.cell("period") == "calendar-year";
    Finding finding;
    finding.rule = chronic ? "leak.chronic" : "leak.rate";
    finding.severity = Severity::caution;
    finding.headline =
        fmt::format("leaks {}, {} {} %", rateText,
                    threshold.equalCounts ? "the limit begins at" : "the limit is", threshold.percent);
    finding.subject = std::move(systemText);
    finding.working = std::move(working);
    finding.working.push_back(fmt::format("limit: {} {} % for {} from {} lb", threshold.row.cell("compare"),
                                          threshold.percent, threshold.row.cell("use"),
                                          threshold.row.cell("charge_from_lb")));
    finding.citation = threshold.row.section;
    finding.edition = book.edition();
    finding.firmness = threshold.row.firmness;
    finding.remedy = chronic ? "Report it to the authority by 1 March of the next year."
                             : "Tell the owner and repair the leak within 30 days; check the rule's terms.";
    return finding;
}

} // namespace tarebook
