#include "core/base/date.h"

#include <algorithm>
#include <charconv>
#include <chrono>

#include <fmt/format.h>

#include "core/base/digits.h"
#include "core/base/text.h"

namespace tarebook {

namespace {

namespace chrono = std::chrono;

chrono::year_month_day civil(int days) {
    return chrono::year_month_day(chrono::sys_days(chrono::days(days)));
}

int dayNumberOf(chrono::year_month_day day) {
    return static_cast<int>(chrono::sys_days(day).time_since_epoch().count());
}

bool readPart(std::string_view text, std::size_t length, int& number) {
    if (text.size() != length || text.find_first_not_of("0123456789") != std::string_view::npos) {
        return false;
    }
    return std::from_chars(text.data(), text.data() + text.size(), number).ec == std::errc();
}

} // namespace

Result<Date> Date::of(int year, int month, int day) {
    const chrono::year_month_day civilDay(chrono::year(year), chrono::month(static_cast<unsigned>(month)),
                                          chrono::day(static_cast<unsigned>(day)));
    if (year < 1900 || year > 2199 || month < 1 || day < 1 || !civilDay.ok()) {
        return Error{fmt::format("there is no day {} of month {} of the year {}", day, month, year),
                     "write a day as 2026-09-14"};
    }
    return Date(dayNumberOf(civilDay));
}

Result<Date> Date::parse(std::string_view text) {
    const auto parts = split(trimmed(text), '-');
    int year = 0;
    int month = 0;
    int day = 0;
    if (parts.size() != 3 || !readPart(parts[0], 4, year) || !readPart(parts[1], 2, month) ||
        !readPart(parts[2], 2, day)) {
        return Error{fmt::format("{} is not a day", tarebook::quoted(text)), "write a day as 2026-09-14"};
    }
    return of(year, month, day);
}

Date Date::fromDayNumber(int days) {
    static const int kFirst = dayNumberOf(chrono::year(1900) / chrono::January / 1);
    static const int kLast = dayNumberOf(chrono::year(2199) / chrono::December / 31);
    return Date(std::clamp(days, kFirst, kLast));
}

Date Date::firstOf(MonthYear month) {
    return Date(
        dayNumberOf(chrono::year(month.year()) / chrono::month(static_cast<unsigned>(month.month())) / 1));
}

Date Date::lastOf(MonthYear month) {
    return Date(dayNumberOf(chrono::year(month.year()) / chrono::month(static_cast<unsigned>(month.month())) /
                            chrono::last));
}

int Date::day() const {
    return static_cast<int>(static_cast<unsigned>(civil(m_days).day()));
}

MonthYear Date::month() const {
    const auto day = civil(m_days);
    return MonthYear::of(static_cast<int>(day.year()), static_cast<int>(static_cast<unsigned>(day.month())))
        .value();
}

std::string Date::text() const {
    std::string text = month().text();
    text += '-';
    addDigits(text, day(), 2);
    return text;
}

} // namespace tarebook
