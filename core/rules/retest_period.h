#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/rules/finding.h"
#include "core/rules/retest_facts.h"
#include "core/rules/rulebook.h"

namespace tarebook {

/// The period that a rulebook gives a cylinder, and when it falls due by it.
struct RetestPeriod {
    const RuleRow* row = nullptr; // of the table `requalification`; lives as long as the rulebook
    bool markAccepted = true;     // false: the jurisdiction does not fill cylinders of this mark
    int years = 0;                // 0: never asked for
    std::optional<MonthYear> due;
    std::vector<std::string> working;
    std::vector<Finding> notes; // a letter that tells nothing, an interval that has ended, a lighter method
};

/// The names by which the column `types` knows a specification, most particular first: `4B240ET`, `4B` (only
/// without letters behind the pressure), the authority, `NR` for one that is never refilled, `*`.
[[nodiscard]] std::vector<std::string> typeKeys(const Specification& specification);
/// Whether one of the keys stands in the list of types, separated by spaces.
[[nodiscard]] bool typesFit(const std::string& types, const std::vector<std::string>& keys);

/// Picks the row and counts. Error: no table, no row for the specification, or a row without years.
[[nodiscard]] Result<RetestPeriod> retestPeriod(const Rulebook& rulebook, const RetestFacts& facts);

} // namespace tarebook
