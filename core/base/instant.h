#pragma once

#include <compare>
#include <cstdint>
#include <string>
#include <string_view>

#include "core/base/date.h"
#include "core/base/result.h"

namespace tarebook {

/// A moment, in whole seconds of UTC since 1970 (no leap seconds), within the years 1900 to 2199.
class Instant {
public:
    constexpr Instant() = default;
    [[nodiscard]] static constexpr Instant fromSeconds(std::int64_t seconds) { return Instant(seconds); }
    /// Reads ISO 8601 with an offset: `2026-09-14T16:30:00-05:00`, `2026-09-14T21:30Z`. Error: no offset (the
    /// moment would be a guess), or no such moment.
    [[nodiscard]] static Result<Instant> parse(std::string_view text);

    [[nodiscard]] constexpr std::int64_t seconds() const { return m_seconds; }
    [[nodiscard]] constexpr Instant plusSeconds(std::int64_t more) const { return Instant(m_seconds + more); }
    /// `2026-09-14T21:30:00Z`.
    [[nodiscard]] std::string text() const;

    constexpr auto operator<=>(const Instant&) const = default;

private:
    explicit constexpr Instant(std::int64_t seconds) : m_seconds(seconds) {}
    std::int64_t m_seconds = 0;
};

/// What the core asks for the time; programs pass the system's, tests their own.
class Clock {
public:
    Clock() = default;
    Clock(const Clock&) = delete;
    Clock& operator=(const Clock&) = delete;
    virtual ~Clock() = default;
    [[nodiscard]] virtual Instant now() const = 0;
};

/// The clock of the machine.
class SystemClock : public Clock {
public:
    [[nodiscard]] Instant now() const override;
};

/// A clock that stands until it is moved: for tests and for generated histories.
class SetClock : public Clock {
public:
    explicit SetClock(Instant start) : m_now(start) {}
    [[nodiscard]] Instant now() const override { return m_now; }
    void set(Instant moment) { m_now = moment; }

private:
    Instant m_now;
};

} // namespace tarebook
