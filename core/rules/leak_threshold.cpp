#include "core/rules/leak_threshold.h"

#include <algorithm>
#include <charconv>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/rules/gas_kinds.h"
#include "core/rules/rule_cells.h"

namespace tarebook {

namespace {

constexpr std::string_view kYearly = "12-months";
constexpr std::string_view kOutside = "outside";

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

bool isOf(const RuleRow& row, LeakLaw law, std::string_view period) {
    return row.cell("refrigerants") == (law == LeakLaw::ods ? "ods" : "hfc") && row.cell("period") == period;
}

bool names(const RuleRow& row, const std::string& use) {
    if (row.cell("use") == use) {
        return true;
    }
    const std::vector<std::string> others = namesIn(row, "also", " / ");
    return std::find(others.begin(), others.end(), use) != others.end();
}

/// The row of a use, by any of its names; of `other` where the table has none for it.
const RuleRow* rowOf(const Rulebook& book, LeakLaw law, std::string_view period, std::string_view use) {
    const RuleTable* table = book.table("leak-thresholds");
    if (table == nullptr) {
        return nullptr;
    }
    const std::string named = lowered(trimmed(use));
    const RuleRow* other = nullptr;
    for (const RuleRow& row : table->rows) {
        if (!isOf(row, law, period)) {
            continue;
        }
        if (names(row, named)) {
            return &row;
        }
        if (row.cell("use") == "other") {
            other = &row;
        }
    }
    return other;
}

Result<std::optional<LeakThreshold>> find(const Rulebook& book, LeakLaw law, std::string_view period,
                                          std::string_view use, Mass fullCharge) {
    const RuleRow* row = rowOf(book, law, period, use);
    if (row == nullptr || row->cell("compare") == kOutside) {
        return std::optional<LeakThreshold>();
    }
    const auto threshold = thresholdOf(*row);
    if (!threshold) {
        return threshold.error();
    }
    return fullCharge >= threshold.value().chargeFrom ? std::make_optional(threshold.value())
                                                      : std::optional<LeakThreshold>();
}

} // namespace

Result<std::vector<LeakLaw>> leakLawsOf(const Rulebook& book, const Catalogue& catalogue,
                                        const Contents& contents) {
    const std::set<std::string> kinds = gasKinds(catalogue, contents);
    std::vector<LeakLaw> laws;
    if (kinds.contains("ods")) {
        laws.push_back(LeakLaw::ods);
    }
    if (kinds.contains("hfc")) {
        laws.push_back(LeakLaw::hfc);
        return laws;
    }
    const RuleTable* table = book.table("leak-thresholds");
    const RefrigerantFacts facts = catalogue.mixtureFacts(contents);
    const SourcedNumber* gwp = facts.gwp(GwpSet::ar4);
    if (!laws.empty() || table == nullptr || gwp == nullptr || !kinds.contains("halocarbon")) {
        return laws;
    }
    for (const RuleRow& row : table->rows) {
        const auto above = numberIn(row, "substitute_gwp_above");
        if (!above) {
            return above.error();
        }
        if (above.value() && gwp->value > *above.value()) {
            laws.push_back(LeakLaw::hfc);
            return laws;
        }
    }
    return laws;
}

const RuleRow* leakExclusion(const Rulebook& book, LeakLaw law, std::string_view use) {
    const RuleRow* row = rowOf(book, law, kYearly, use);
    return row != nullptr && row->cell("compare") == kOutside ? row : nullptr;
}

const RuleRow* leakDetection(const Rulebook& book, LeakLaw law, std::string_view use, Mass fullCharge) {
    const RuleRow* row = rowOf(book, law, "detection", use);
    const auto from =
        row == nullptr ? Result<Mass>(Mass()) : Mass::parse(row->cell("charge_from_lb") + " lb");
    return row != nullptr && from && fullCharge >= from.value() ? row : nullptr;
}

Result<std::optional<LeakThreshold>> leakThreshold(const Rulebook& book, LeakLaw law, std::string_view use,
                                                   Mass fullCharge) {
    return find(book, law, kYearly, use, fullCharge);
}

Result<std::optional<LeakThreshold>> chronicLeakThreshold(const Rulebook& book, LeakLaw law,
                                                          Mass fullCharge) {
    return find(book, law, "calendar-year", "any", fullCharge);
}

Finding leakFinding(const Rulebook& book, const LeakThreshold& threshold, std::string systemText,
                    const std::string& rateText, std::vector<std::string> working) {
    const bool chronic = threshold.row.cell("period") == "calendar-year";
    Finding finding = findingOf(
        book, threshold.row, chronic ? "leak.chronic" : "leak.rate", Severity::caution,
        fmt::format("leaks {}, {} {} %", rateText,
                    threshold.equalCounts ? "the limit begins at" : "the limit is", threshold.percent));
    finding.subject = std::move(systemText);
    finding.working = std::move(working);
    finding.working.push_back(fmt::format("limit: {} {} % for {} from {} lb", threshold.row.cell("compare"),
                                          threshold.percent, threshold.row.cell("use"),
                                          threshold.row.cell("charge_from_lb")));
    finding.remedy = chronic ? "Report it to the authority by 1 March of the next year."
                             : "Tell the owner and repair the leak within 30 days; check the rule's terms.";
    return finding;
}

} // namespace tarebook
