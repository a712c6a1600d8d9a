#include "core/ledger/leak_rate.h"

#include <algorithm>

#include <fmt/format.h>

namespace tarebook {

namespace {

__extension__ using Wide = __int128;
constexpr int kYearDays = 365;

Result<bool> checked(const std::vector<Addition>& additions, Mass fullCharge) {
    constexpr std::int64_t kMost = 1'000'000'000'000; // 1000 t
    if (fullCharge <= Mass() || fullCharge.milligrams() > kMost) {
        return Error{"the full charge must be above zero and at most 1000 t",
                     "enter the system's full charge"};
    }
    for (const Addition& addition : additions) {
        if (addition.mass <= Mass() || addition.mass.milligrams() > kMost) {
            return Error{
                fmt::format("the addition of {} is not above zero or above 1000 t", addition.day.text()),
                "list only what was added"};
        }
    }
    return true;
}

/// Of the additions from the day after `after` to `until`.
Result<LeakRate> rateOf(const std::vector<Addition>& additions, Mass fullCharge, Date after, Date until) {
    const auto fits = checked(additions, fullCharge);
    if (!fits) {
        return fits.error();
    }
    LeakRate rate{Mass(), fullCharge, kYearDays, 0};
    for (const Addition& addition : additions) {
        if (addition.day > after && addition.day <= until) {
            const auto sum = rate.added.plus(addition.mass);
            if (!sum) {
                return sum.error();
            }
            rate.added = sum.value();
            ++rate.additions;
        }
    }
    return rate;
}

} // namespace

std::int64_t LeakRate::hundredthsOfPercent() const {
    const Wide over = static_cast<Wide>(fullCharge.milligrams()) * days;
    return static_cast<std::int64_t>((static_cast<Wide>(added.milligrams()) * kYearDays * 10'000 * 2 + over) /
                                     (over * 2));
}

bool LeakRate::isOver(int percent) const {
    const Wide beyond = static_cast<Wide>(added.milligrams()) * kYearDays * 100 -
                        static_cast<Wide>(fullCharge.milligrams()) * days * percent;
    const Wide rounding = static_cast<Wide>(additions) * kYearDays * 100 + static_cast<Wide>(days) * percent;
    return beyond * 2 > rounding;
}

std::string LeakRate::text() const {
    const std::int64_t hundredths = hundredthsOfPercent();
    return fmt::format("{}.{:02} %", hundredths / 100, hundredths % 100);
}

Result<LeakRate> annualizedLeakRate(const std::vector<Addition>& additions, Mass fullCharge, Date on) {
    auto rate = rateOf(additions, fullCharge, on.plusDays(-1), on);
    if (!rate) {
        return rate.error();
    }
    if (rate.value().added == Mass()) {
        return Error{fmt::format("nothing was added on {}", on.text()), "ask for the day of an addition"};
    }
    LeakRate annualized = rate.value();
    for (const Addition& addition : additions) {
        if (addition.day < on) {
            annualized.days = std::min(annualized.days, on.dayNumber() - addition.day.dayNumber());
        }
    }
    return annualized;
}

Result<LeakRate> rollingLeakRate(const std::vector<Addition>& additions, Mass fullCharge, Date on,
                                 std::optional<Date> followUpTest) {
    const Date yearBefore = on.plusDays(-kYearDays);
    return rateOf(additions, fullCharge, followUpTest ? std::max(*followUpTest, yearBefore) : yearBefore, on);
}

Result<LeakRate> calendarYearLeakRate(const std::vector<Addition>& additions, Mass fullCharge, Date on) {
    const auto newYear = Date::of(on.month().year(), 1, 1);
    if (!newYear) {
        return newYear.error();
    }
    return rateOf(additions, fullCharge, newYear.value().plusDays(-1), on);
}

} // namespace tarebook
