#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/quantity/mass.h"
#include "core/refrigerant/catalogue.h"
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

/// Each law that reaches the contents: ozone-depleting (class I or II), and what is or contains an HFC; a
/// substitute that is no HFC counts with the HFCs above the potential that the table names (AR4 of the
/// catalogue). A blend of both kinds falls under both. Error: a row that cannot be read.
[[nodiscard]] Result<std::vector<LeakLaw>> leakLawsOf(const Rulebook& book, const Catalogue& catalogue,
                                                      const Contents& contents);
/// The row that puts a use outside the rule whatever its charge, the residential and light commercial
/// subsector for HFCs; nullptr for a use that is inside.
[[nodiscard]] const RuleRow* leakExclusion(const Rulebook& book, LeakLaw law, std::string_view use);

/// The row by which a system of that use and full charge must watch itself for leaks; nullptr: it need not,
/// or the rulebook says nothing of it.
[[nodiscard]] const RuleRow* leakDetection(const Rulebook& book, LeakLaw law, std::string_view use,
                                           Mass fullCharge);

/// The threshold of the system's use, by any of the names that leak-thresholds.csv has for it, otherwise that
/// of `other`; nothing when the rulebook has none: another jurisdiction, a smaller charge, a use outside the
/// rule, a day before it. Error: a row that cannot be read.
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
