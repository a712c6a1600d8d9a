#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/date.h"
#include "core/base/instant.h"
#include "core/base/result.h"
#include "core/base/zone_rule.h"

namespace tarebook {

/// Where the system keeps its time zones (RFC 9636 files).
inline constexpr std::string_view kZoneFolder = "/usr/share/zoneinfo";

/// A time zone: how far local time is ahead of UTC at any moment of the years 1900 to 2199.
class Zone {
public:
    /// The zone of a name such as `America/Chicago`; `UTC` needs no file. Error: no such name, or a file that
    /// is no zone.
    [[nodiscard]] static Result<Zone> load(const std::string& name,
                                           const std::string& folder = std::string(kZoneFolder));
    [[nodiscard]] static Zone utc();

    [[nodiscard]] const std::string& name() const { return m_name; }
    /// Seconds that local time is ahead of UTC (west of Greenwich: negative).
    [[nodiscard]] int offsetSecondsAt(Instant moment) const;
    /// The calendar day there.
    [[nodiscard]] Date dateOf(Instant moment) const;
    /// `2026-09-14 16:30`, local time, seconds cut.
    [[nodiscard]] std::string localText(Instant moment) const;
    /// `2026-09-14T16:30:05-05:00`, which Instant::parse() reads back. Offsets of whole minutes only; the
    /// local mean times of before the railways have seconds, which are cut.
    [[nodiscard]] std::string isoText(Instant moment) const;
    /// The first moment of the day: midnight, or where the clocks skip it, the moment they skip to.
    [[nodiscard]] Instant startOf(Date day) const;
    /// The moment at which the clocks there show this. Of two (clocks set back) the first. Error: no such
    /// time of day, or the clocks skip it that day; names the next that exists.
    [[nodiscard]] Result<Instant> fromLocal(Date day, int hour, int minute) const;

private:
    struct Transition {
        std::int64_t at = 0; // seconds of UTC
        int offset = 0;      // seconds, from then on
    };

    explicit Zone(std::string name) : m_name(std::move(name)) {}
    [[nodiscard]] static Result<Zone> fromFile(const std::string& name, std::string_view bytes);
    /// The earliest moment whose local time is at least this; `local` counts as if it were UTC.
    [[nodiscard]] Instant earliestAtLeast(std::int64_t local) const;

    std::string m_name;
    int m_firstOffset = 0; // before the first transition
    std::vector<Transition> m_transitions;
    ZoneRule m_rule; // after the last
};

} // namespace tarebook
