#include "core/base/instant.h"

#include <charconv>
#include <chrono>

#include <fmt/format.h>

#include "core/base/digits.h"
#include "core/base/text.h"

namespace tarebook {

namespace {

constexpr std::int64_t kDaySeconds = 86'400;

/// Two digits at the place, or -1.
int pairAt(std::string_view text, std::size_t place) {
    if (place + 2 > text.size()) {
        return -1;
    }
    const std::string_view digits = text.substr(place, 2);
    int number = 0;
    if (digits.find_first_not_of("0123456789") != std::string_view::npos ||
        std::from_chars(digits.data(), digits.data() + 2, number).ec != std::errc()) {
        return -1;
    }
    return number;
}

/// Seconds east of Greenwich of `Z`, `+02:00`, `-0500`; false when it is none of them.
bool readOffset(std::string_view text, std::int64_t& seconds) {
    if (text == "Z" || text == "z") {
        seconds = 0;
        return true;
    }
    const bool colon = text.size() == 6 && text[3] == ':';
    if ((text.size() != 5 && !colon) || (text[0] != '+' && text[0] != '-')) {
        return false;
    }
    const int hours = pairAt(text, 1);
    const int minutes = pairAt(text, colon ? 4 : 3);
    if (hours < 0 || hours > 14 || minutes < 0 || minutes > 59) {
        return false;
    }
    seconds = (text[0] == '-' ? -1 : 1) * (hours * 3600LL + minutes * 60LL);
    return true;
}

} // namespace

Result<Instant> Instant::parse(std::string_view text) {
    const std::string_view whole = trimmed(text);
    const Error unreadable{fmt::format("{} is not a moment", tarebook::quoted(text)),
                           "write it with its offset, as 2026-09-14T16:30:00-05:00"};
    if (whole.size() < 17 || (whole[10] != 'T' && whole[10] != ' ') || whole[13] != ':') {
        return unreadable;
    }
    const auto day = Date::parse(whole.substr(0, 10));
    if (!day) {
        return day.error();
    }
    const bool withSeconds = whole[16] == ':';
    const int hours = pairAt(whole, 11);
    const int minutes = pairAt(whole, 14);
    const int seconds = withSeconds ? pairAt(whole, 17) : 0;
    std::int64_t offset = 0;
    if (hours < 0 || hours > 23 || minutes < 0 || minutes > 59 || seconds < 0 || seconds > 59 ||
        !readOffset(whole.substr(withSeconds ? 19 : 16), offset)) {
        return unreadable;
    }
    return Instant(day.value().dayNumber() * kDaySeconds + hours * 3600LL + minutes * 60LL + seconds -
                   offset);
}

std::string Instant::text() const {
    const std::int64_t floored =
        m_seconds >= 0 ? m_seconds / kDaySeconds : -((-m_seconds + kDaySeconds - 1) / kDaySeconds);
    const std::int64_t rest = m_seconds - floored * kDaySeconds;
    std::string text = Date::fromDayNumber(static_cast<int>(floored)).text();
    text += 'T';
    addDigits(text, rest / 3600, 2);
    text += ':';
    addDigits(text, rest / 60 % 60, 2);
    text += ':';
    addDigits(text, rest % 60, 2);
    text += 'Z';
    return text;
}

Instant SystemClock::now() const {
    return Instant::fromSeconds(
        std::chrono::duration_cast<std::chrono::seconds>(std::chrono::system_clock::now().time_since_epoch())
            .count());
}

} // namespace tarebook
