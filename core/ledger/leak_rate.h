#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/base/date.h"
#include "core/base/result.h"
#include "core/quantity/mass.h"

namespace tarebook {

/// Refrigerant added to a system on a day, in the shop's calendar. Leave out what the rule leaves out: the
/// charge of a new installation or a retrofit, and a seasonal variance put back.
struct Addition {
    Date day;
    Mass mass; // above zero
};

/// The share of its full charge that a system would lose in 12 months if the present rate went on (40 CFR
/// 82.152, leak rate), kept as the fraction it was made from: comparisons are exact.
struct LeakRate {
    Mass added;        // sum of the additions that count
    Mass fullCharge;   // above zero
    int days = 365;    // by which the annualizing method divides; 365 with the rolling average
    int additions = 0; // how many were summed

    /// added / fullCharge x 365 / days, in hundredths of a percent, to the nearest: 20.28 % is 2028.
    [[nodiscard]] std::int64_t hundredthsOfPercent() const;
    /// Over the percentage; equal to it is not over (82.157(c)). 15 lb of 150 lb is 10 %, though neither is a
    /// whole number of milligrams: half a milligram of each mass is left to its rounding.
    [[nodiscard]] bool isOver(int percent) const;
    [[nodiscard]] std::string text() const; // `20.28 %`
};

/// Annualizing method: what was added on the day, over the full charge, over the days since the addition
/// before it or 365, whichever is shorter, over 365. Several additions of one day count as one. Without an
/// earlier addition 365 days are taken (read secondhand: check 84.106(b) for the first year). Error: a full
/// charge or an addition that is not above zero, or nothing added on the day.
[[nodiscard]] Result<LeakRate> annualizedLeakRate(const std::vector<Addition>& additions, Mass fullCharge,
                                                  Date on);
/// Rolling average: the sum of what was added in the 365 days that end with the day, or after the last
/// successful follow-up verification test when that is later (that limb from memory), over the full charge.
/// Errors as above, but for a day without an addition.
[[nodiscard]] Result<LeakRate> rollingLeakRate(const std::vector<Addition>& additions, Mass fullCharge,
                                               Date on, std::optional<Date> followUpTest);
/// What was added in the calendar year of the day, up to the day, over the full charge: 125 % or more is a
/// chronic leaker (82.157(j)).
[[nodiscard]] Result<LeakRate> calendarYearLeakRate(const std::vector<Addition>& additions, Mass fullCharge,
                                                    Date on);

} // namespace tarebook
