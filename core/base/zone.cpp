#include "core/base/zone.h"

#include <algorithm>
#include <fstream>
#include <iterator>

#include <fmt/format.h>

#include "core/base/text.h"

namespace tarebook {

namespace {

constexpr std::int64_t kDaySeconds = 86'400;
constexpr std::size_t kHeaderBytes = 44;
constexpr std::size_t kMostFileBytes = 1U << 20U;

/// What a file holds (RFC 9636, 3.1); the six counts stand behind 20 bytes of magic, version and reserve.
struct Counts {
    std::size_t utcFlags = 0;
    std::size_t wallFlags = 0;
    std::size_t leapSeconds = 0;
    std::size_t transitions = 0;
    std::size_t types = 0;
    std::size_t designationBytes = 0;

    [[nodiscard]] std::size_t bytes(std::size_t timeBytes) const {
        return transitions * (timeBytes + 1) + types * 6 + designationBytes + leapSeconds * (timeBytes + 4) +
               wallFlags + utcFlags;
    }
};

std::uint64_t unsignedAt(std::string_view bytes, std::size_t place, std::size_t length) {
    std::uint64_t value = 0;
    for (std::size_t next = place; next < place + length; ++next) {
        value = value << 8U | static_cast<unsigned char>(bytes[next]);
    }
    return value;
}

bool readCounts(std::string_view bytes, Counts& counts) {
    if (bytes.size() < kHeaderBytes || !bytes.starts_with("TZif")) {
        return false;
    }
    std::size_t* const fields[] = {&counts.utcFlags,    &counts.wallFlags, &counts.leapSeconds,
                                   &counts.transitions, &counts.types,     &counts.designationBytes};
    std::size_t place = 20;
    for (std::size_t* field : fields) {
        *field = static_cast<std::size_t>(unsignedAt(bytes, place, 4));
        place += 4;
        if (*field > kMostFileBytes) {
            return false;
        }
    }
    return counts.types > 0;
}

Error damaged(const std::string& name) {
    return Error{fmt::format("the file of the time zone {} is damaged or too old", tarebook::quoted(name)),
                 "install the system's time zone data again (Debian: tzdata)"};
}

bool isZoneName(std::string_view name) {
    return !name.empty() && name.size() <= 64 && name.front() != '/' &&
           name.find("..") == std::string_view::npos &&
           lowered(name).find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789_+-/") == std::string::npos;
}

std::int64_t localSecondsOf(Date day) {
    return day.dayNumber() * kDaySeconds;
}

/// The day and the second within it of local seconds.
std::pair<Date, std::int64_t> cut(std::int64_t local) {
    const std::int64_t days = (local >= 0 ? local : local - kDaySeconds + 1) / kDaySeconds;
    return {Date::fromDayNumber(static_cast<int>(std::clamp<std::int64_t>(days, -100'000, 100'000))),
            local - days * kDaySeconds};
}

} // namespace

Zone Zone::utc() {
    return Zone("UTC");
}

Result<Zone> Zone::load(const std::string& name, const std::string& folder) {
    if (name == "UTC") {
        return utc();
    }
    const Error unknown{fmt::format("there is no time zone {}", tarebook::quoted(name)),
                        "name it by region and city, as America/Chicago, or write UTC"};
    if (!isZoneName(name)) {
        return unknown;
    }
    std::ifstream file(folder + "/" + name, std::ios::binary);
    std::string bytes(kMostFileBytes, '\0');
    file.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    bytes.resize(static_cast<std::size_t>(file.gcount()));
    if (bytes.empty()) {
        return unknown;
    }
    return fromFile(name, bytes);
}

Result<Zone> Zone::fromFile(const std::string& name, std::string_view bytes) {
    Counts counts;
    if (!readCounts(bytes, counts) || bytes[4] < '2') {
        return damaged(name);
    }
    // The first block has times of 32 bits and is passed over; the second has 64.
    const std::size_t second = kHeaderBytes + counts.bytes(4);
    if (second > bytes.size() || !readCounts(bytes.substr(second), counts)) {
        return damaged(name);
    }
    const std::string_view data = bytes.substr(second + kHeaderBytes);
    if (counts.bytes(8) >= data.size()) {
        return damaged(name);
    }
    const std::size_t typesAt = counts.transitions * 9;
    const auto offsetOfType = [&](std::size_t type) {
        return static_cast<int>(static_cast<std::int32_t>(unsignedAt(data, typesAt + type * 6, 4)));
    };
    Zone zone(name);
    zone.m_firstOffset = offsetOfType(0);
    for (std::size_t index = 0; index < counts.transitions; ++index) {
        const auto at = static_cast<std::int64_t>(unsignedAt(data, index * 8, 8));
        const std::size_t type = static_cast<unsigned char>(data[counts.transitions * 8 + index]);
        const bool inOrder = zone.m_transitions.empty() || zone.m_transitions.back().at < at;
        if (type >= counts.types || !inOrder) {
            return damaged(name);
        }
        zone.m_transitions.push_back(Transition{at, offsetOfType(type)});
    }
    const std::string_view footer = trimmed(data.substr(counts.bytes(8)));
    if (footer.empty()) {
        zone.m_rule.standardOffset =
            zone.m_transitions.empty() ? zone.m_firstOffset : zone.m_transitions.back().offset;
        return zone;
    }
    const auto rule = ZoneRule::parse(footer);
    if (!rule) {
        return damaged(name);
    }
    zone.m_rule = rule.value();
    return zone;
}

int Zone::offsetSecondsAt(Instant moment) const {
    const auto after = std::upper_bound(
        m_transitions.begin(), m_transitions.end(), moment.seconds(),
        [](std::int64_t seconds, const Transition& transition) { return seconds < transition.at; });
    if (after == m_transitions.end()) {
        return m_rule.offsetAt(moment.seconds());
    }
    return after == m_transitions.begin() ? m_firstOffset : std::prev(after)->offset;
}

Date Zone::dateOf(Instant moment) const {
    return cut(moment.seconds() + offsetSecondsAt(moment)).first;
}

std::string Zone::localText(Instant moment) const {
    const auto [day, second] = cut(moment.seconds() + offsetSecondsAt(moment));
    return fmt::format("{} {:02}:{:02}", day.text(), second / 3600, second / 60 % 60);
}

std::string Zone::isoText(Instant moment) const {
    const int minutes = offsetSecondsAt(moment) / 60;
    const auto [day, second] = cut(moment.seconds() + minutes * 60LL);
    const int magnitude = minutes < 0 ? -minutes : minutes;
    return fmt::format("{}T{:02}:{:02}:{:02}{}{:02}:{:02}", day.text(), second / 3600, second / 60 % 60,
                       second % 60, minutes < 0 ? '-' : '+', magnitude / 60, magnitude % 60);
}

// Where the offset is the same a day before and after, nothing changes in between: no zone changes twice
// within two days. Near a change, local time still rises with UTC inside every quarter of an hour.
Instant Zone::earliestAtLeast(std::int64_t local) const {
    const int offsetBefore = offsetSecondsAt(Instant::fromSeconds(local - kDaySeconds));
    if (offsetBefore == offsetSecondsAt(Instant::fromSeconds(local + kDaySeconds))) {
        return Instant::fromSeconds(local - offsetBefore);
    }
    constexpr std::int64_t kStep = 900; // changes happen at full quarters of an hour, UTC, since the railways
    std::int64_t moment = local - 2 * kDaySeconds;
    while (moment + offsetSecondsAt(Instant::fromSeconds(moment)) < local) {
        moment += kStep;
    }
    std::int64_t before = moment - kStep;
    while (before + 1 < moment) {
        const std::int64_t middle = before + (moment - before) / 2;
        (middle + offsetSecondsAt(Instant::fromSeconds(middle)) < local ? before : moment) = middle;
    }
    return Instant::fromSeconds(moment);
}

Instant Zone::startOf(Date day) const {
    return earliestAtLeast(localSecondsOf(day));
}

Result<Instant> Zone::fromLocal(Date day, int hour, int minute) const {
    if (hour < 0 || hour > 23 || minute < 0 || minute > 59) {
        return Error{fmt::format("there is no time of day {:02}:{:02}", hour, minute),
                     "write it from 00:00 to 23:59"};
    }
    const std::int64_t local = localSecondsOf(day) + hour * 3'600LL + minute * 60LL;
    const Instant found = earliestAtLeast(local);
    if (found.seconds() + offsetSecondsAt(found) != local) {
        return Error{fmt::format("the clocks of {} skip {:02}:{:02} on {}", m_name, hour, minute, day.text()),
                     fmt::format("the next time that exists is {}", localText(found))};
    }
    return found;
}

} // namespace tarebook
