#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/base/date.h"
#include "core/base/month_year.h"
#include "core/base/result.h"

namespace tarebook {

/// How a shop writes a day with strokes: the month first (United States) or the day first.
enum class DateOrder { monthFirst, dayFirst };

/// A day as people write it: `2026-09-14`, `2026/09/14`, `20260914`, `14 Sep 2026`, `14-Sep-26`, `Sep 14,
/// 2026`, and in the shop's order `9/14/2026`, `9/14/26` or `14.09.2026` (points: always the day first).
/// Two-digit years are 1950 to 2049. Error: no such day; or one that exists only in the other order, which is
/// named, not guessed at.
[[nodiscard]] Result<Date> readDate(std::string_view text, DateOrder order);

/// A month as MonthYear::parse() reads it, or the month of a day as readDate() does.
[[nodiscard]] Result<MonthYear> readMonth(std::string_view text, DateOrder order);

/// A time of day behind a day.
struct WrittenMoment {
    Date day = Date::fromDayNumber(0);
    std::optional<int> minuteOfDay; // absent where only the day is written
};

/// A day, or a day and a time: `9/14/2026 4:30 PM`, `2026-09-14 16:30`, `2026-09-14T16:30:05` (seconds are
/// cut). Times that carry their offset are for Instant::parse().
[[nodiscard]] Result<WrittenMoment> readMoment(std::string_view text, DateOrder order);

} // namespace tarebook
