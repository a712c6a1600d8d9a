#include "core/shop/system_traffic.h"

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

#include "core/rules/contents_on_top.h"
#include "core/shop/charge_purpose.h"
#include "core/shop/system_then.h"

namespace tarebook {

namespace {

constexpr int kAllLegs = 1'000'000;
constexpr int kFirstLegs = 64; // of a system, for what is new
constexpr int kCycle = 365;    // days

/// Takes a mass out of days that are less than a year before `day`, the oldest first; what it found there.
std::int64_t takeFrom(MassByDay& days, Date day, std::int64_t milligrams) {
    std::int64_t found = 0;
    for (auto& [when, rest] : days) {
        if (day.dayNumber() - when.dayNumber() < kCycle) {
            const std::int64_t part = std::min(rest, milligrams - found);
            rest -= part;
            found += part;
        }
    }
    return found;
}

/// What the charge of an entry was said to be.
Result<ChargePurpose> purposeOf(Shop& shop, Sequence seq) {
    const auto entry = shop.store().entry(seq);
    if (!entry) {
        return entry.error();
    }
    return chargePurposeFrom(entry.value().body.value("purpose", std::string()))
        .value_or(ChargePurpose::addition);
}

/// Of its own gas, as the register has it now or had it then.
std::int64_t ownGasOf(SystemThen& its, const Leg& leg) {
    const std::int64_t now = ownGasIn(leg.moved, its.meant());
    return now == leg.moved.total().milligrams()
               ? now
               : std::max(now, ownGasIn(leg.moved, its.meantOn(leg.moment.occurred)));
}

/// The same of these legs, newest first.
Result<Traffic> trafficIn(Shop& shop, const System& system, std::vector<Leg> legs) {
    SystemThen its(shop, system);
    const Account& account = its.account();
    std::sort(legs.begin(), legs.end(), [](const Leg& one, const Leg& other) {
        return std::pair(one.moment, one.number) < std::pair(other.moment, other.number);
    });
    Traffic traffic;
    MassByDay outside; // taken out and not put back yet
    for (const Leg& leg : legs) {
        const bool out = leg.source == account;
        const Account& other = out ? leg.target : leg.source;
        if (other.kind != AccountKind::cylinder || leg.cause != LegCause::movement) {
            continue;
        }
        const Date day = shop.zone().dateOf(leg.moment.occurred);
        const std::int64_t milligrams = ownGasOf(its, leg);
        if (milligrams == 0) {
            continue;
        }
        if (out) {
            traffic.out[day] += milligrams;
            outside[day] += milligrams;
            continue;
        }
        traffic.in[day] += milligrams;
        const auto purpose = purposeOf(shop, leg.moment.seq);
        if (!purpose) {
            return purpose.error();
        }
        if (purpose.value() != ChargePurpose::addition) {
            traffic.notCounted[day] +=
                purpose.value() == ChargePurpose::putBack ? takeFrom(outside, day, milligrams) : milligrams;
        }
    }
    return traffic;
}

} // namespace

std::int64_t ownGasIn(const Holding& moved, const std::string& meant) {
    if (meant.empty()) {
        return moved.total().milligrams();
    }
    std::int64_t own = 0;
    for (const auto& [refrigerant, milligrams] : moved.byRefrigerant()) {
        own += refrigerant == meant || refrigerant == kUnknownGas ? milligrams : 0;
    }
    return own;
}

Result<Traffic> trafficOf(Shop& shop, const System& system) {
    const Account account{AccountKind::system, system.key()};
    auto legs = shop.store().legsAbout(account, kAllLegs);
    return legs ? trafficIn(shop, system, std::move(legs).value()) : Result<Traffic>(legs.error());
}

Result<Traffic> trafficSince(Shop& shop, const System& system, Date since) {
    const Account account{AccountKind::system, system.key()};
    for (int most = kFirstLegs;; most *= 4) {
        auto legs = shop.store().legsAbout(account, most);
        if (!legs) {
            return legs.error();
        }
        const bool all = legs.value().size() < static_cast<std::size_t>(most) || most >= kAllLegs;
        const std::optional<Date> oldest =
            legs.value().empty() ? std::nullopt
                                 : std::optional(shop.zone().dateOf(legs.value().back().moment.occurred));
        if (!all && *oldest >= since) {
            continue;
        }
        auto traffic = trafficIn(shop, system, std::move(legs).value());
        if (!traffic) {
            return traffic.error();
        }
        Traffic found = std::move(traffic).value();
        // The day of the oldest leg may be cut through: it counts only where all was read.
        if (!all) {
            found.in.erase(*oldest);
        }
        const MassByDay& days = found.in;
        if (all || days.empty() || days.rbegin()->first < since || days.begin()->first < since) {
            return found;
        }
    }
}

} // namespace tarebook
