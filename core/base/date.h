#pragma once

#include <compare>
#include <string>
#include <string_view>

#include "core/base/month_year.h"
#include "core/base/result.h"

namespace tarebook {

/// A calendar day (proleptic Gregorian). Always a real day of 1900 to 2199.
class Date {
public:
    [[nodiscard]] static Result<Date> of(int year, int month, int day);
    /// Reads `2026-09-14`.
    [[nodiscard]] static Result<Date> parse(std::string_view text);
    /// Days since 1970-01-01; held to the range of the class.
    [[nodiscard]] static Date fromDayNumber(int days);
    [[nodiscard]] static Date firstOf(MonthYear month);
    [[nodiscard]] static Date lastOf(MonthYear month);

    [[nodiscard]] int dayNumber() const { return m_days; }
    [[nodiscard]] int day() const;
    [[nodiscard]] MonthYear month() const;
    [[nodiscard]] Date plusDays(int days) const { return fromDayNumber(m_days + days); }
    /// `YYYY-MM-DD`.
    [[nodiscard]] std::string text() const;

    auto operator<=>(const Date&) const = default;

private:
    explicit Date(int days) : m_days(days) {}
    int m_days;
};

} // namespace tarebook
