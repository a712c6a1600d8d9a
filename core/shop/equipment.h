#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/ledger/leak_rate.h"
#include "core/rules/leak_threshold.h"
#include "core/shop/register.h"

namespace tarebook {

/// How much of a system's full charge was recovered on a day, all cylinders together: a look at whether the
/// weights can be right, no verdict of law. What is missing is measured by the leak rate over which such a
/// system must be repaired; where the rulebook has none, only more than the full charge stands out.
struct ChargeShare {
    std::string system; // SITE/TAG
    Mass recovered;     // on that day
    Mass fullCharge;
    int tenthsOfPercent = 0; // 92.6 % is 926, to the nearest
    bool ordinary = true;
    std::string sentence; // `92.6 % of the full charge of 34.0 lb: within the ordinary`
};
/// Nothing when the full charge is not known or nothing was recovered on the day.
[[nodiscard]] Result<std::optional<ChargeShare>> chargeShare(Shop& shop, const System& system, Date day);
/// The same for a recovery that an entry recorded; nothing for any other entry.
[[nodiscard]] Result<std::optional<ChargeShare>> chargeShareOf(Shop& shop,
                                                               const std::vector<Sequence>& entries);

/// What was added to a system by the books, and the leak rates that follow (core/ledger/leak_rate.h). A
/// charge that was entered as the first of a new installation or as one after a retrofit does not count, nor
/// does one that puts back what had been taken out of the same system within the 365 days before it, as far
/// as that goes: moved out for a season (40 CFR 82.157(b)), or for a repair (common practice).
struct SystemLeaks {
    System system;
    std::vector<Addition> additions;  // that count, until the day, oldest first; several of one day are one
    std::vector<Addition> notCounted; // the others, likewise
    /// By the annualizing method, at the newest addition. Absent until the addition before it is known: the
    /// rate divides by the days between the two.
    std::optional<LeakRate> annualized;
    /// Rolling average: what was added in the 365 days that end with the day.
    std::optional<LeakRate> rolling;
    std::string problem; // why there is no annualized rate, and what would be right; empty when there is
    /// What the rulebook holds against the rates, where it has something for such a system.
    std::optional<LeakThreshold> threshold;
    /// By the rulebook of the day: `leak.rate` over the limit by the method that the shop has set (by either,
    /// until it has set one), `leak.chronic` for a calendar year, `leak.outside` for a use
    /// that the rule leaves out, `leak.detection` where it must watch itself, `leak.check` where checks go by
    /// the size of the charge, `leak.no-answer` where they do but this charge cannot be told.
    std::vector<Finding> findings = {};
};
/// What the books of about a year say of one system, however old they are: its rates and what they break
/// on the day, with what is `added` on it beside what the books have.
[[nodiscard]] Result<SystemLeaks> recentLeaks(Shop& shop, const System& system, Date on, Mass added = {});
/// Of all systems what somebody has to answer for on the day: `leak.rate` where something was added in the
/// 365 days before, `leak.chronic` of the year, and of the last one until it is reported (1 March).
[[nodiscard]] Result<std::vector<Finding>> leakAlerts(Shop& shop, Date on);
/// What a charge says at once: the findings of the rates with it, or a note with the rates and the limit.
/// Nothing where no limit holds for the system.
[[nodiscard]] std::vector<Finding> leakAfterCharge(Shop& shop, const System& system, Date on, Mass added);
/// Whether the rulebook of the day asks for the report of a chronic leaker of such a system; nothing where
/// its full charge or what is in it is not known.
[[nodiscard]] std::optional<bool> isAskedOfChronic(Shop& shop, const System& system, Date on);
/// Of the systems that were ever charged, by name; `key` (SITE/TAG) asks for one, charged or not. Error:
/// there is no such system.
[[nodiscard]] Result<std::vector<SystemLeaks>> leaks(Shop& shop, Date on, const std::string& key = {});

/// The same of every system on file, charged or not: what is asked of it goes by its gas and its charge.
[[nodiscard]] Result<std::vector<SystemLeaks>> leaksOfEverySystem(Shop& shop, Date on);
} // namespace tarebook
