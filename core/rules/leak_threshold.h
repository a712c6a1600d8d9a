#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/quantity/mass.h"
#include "core/rules/rulebook.h"

namespace tarebook {

/// Which leak rule a system falls under by what is in it.
enum class LeakLaw { ods, hfc };

/// A leak rate over which a system must be repaired, or above which it must be reported.
struct LeakThreshold {
    int percent = 0;
    bool equalCounts = false; // at the percentage already
    Mass chargeFrom;          // full charge of one circuit from which it holds
    RuleRow row;              // section, source, firmness and remark
};

/// The threshold of the system's use (`commercial refrigeration`, `industrial process refrigeration`,
/// `comfort cooling`, anything else counts as `other`), nothing when the rulebook has none for it: another
/// jurisdiction, a smaller charge, a day before the rule. The table is leak-thresholds.csv. Error: a row that
/// cannot be read. The residential and light commercial subsector is outside the HFC rule: the caller asks
/// only for systems that are inside.
[[nodiscard]] Result<std::optional<LeakThreshold>> leakThreshold(const Rulebook& book, LeakLaw law,
                                                                 std::string_view use, Mass fullCharge);
/// Of a calendar year: a chronic leaker is reported.
[[nodiscard]] Result<std::optional<LeakThreshold>> chronicLeakThreshold(const Rulebook& book, LeakLaw law,
                                                                        Mass fullCharge);
/// `systemText` as `system:SITE/TAG`, `rateText` as `20.28 %`, with the working of the rate line by line.
[[nodiscard]] Finding leakFinding(const Rulebook& book, const LeakThreshold& threshold,
                                  std::string systemText, const std::string& rateText,
                                  std::vector<std::string> working);

} // namespace tarebook
