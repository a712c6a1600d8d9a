#pragma once

#include <cstdint>
#include <string_view>

#include "core/base/result.h"

namespace tarebook {

/// The day of a year and the local time at which clocks change: `M3.2.0/2`, `J60`, `59/-1`.
struct ZoneChange {
    enum class Kind { weekday, withoutLeapDay, withLeapDay };
    Kind kind = Kind::weekday;
    int month = 1;
    int week = 1; // 5: the last
    int day = 0;  // weekday from Sunday 0, or day of the year
    int seconds = 7'200;

    /// Seconds since 1970 at which this stands, as if local time were UTC.
    [[nodiscard]] std::int64_t localSeconds(int year) const;
};

/// A rule for every year, as in the TZ variable of POSIX: `CST6CDT,M3.2.0,M11.1.0`.
struct ZoneRule {
    int standardOffset = 0; // seconds ahead of UTC
    int summerOffset = 0;
    bool hasSummer = false;
    ZoneChange summerBegins;
    ZoneChange summerEnds;

    [[nodiscard]] int offsetAt(std::int64_t utcSeconds) const;

    /// Reads the form of POSIX.1 (XBD 8.3) with the extension of RFC 9636, 3.3.1: hours of -167 to 167. Empty
    /// text is an Error.
    [[nodiscard]] static Result<ZoneRule> parse(std::string_view text);
};

} // namespace tarebook
