#pragma once

#include <compare>
#include <string>
#include <string_view>

#include "core/base/result.h"

namespace tarebook {

/// A calendar month, as stamped on a cylinder's collar. Always a real month of 1900 to 2199.
class MonthYear {
public:
    [[nodiscard]] static Result<MonthYear> of(int year, int month);
    /// Reads `2024-03`, `03/24`, `3/2024`, `Mar 2024`, `Mar-24`. Two-digit years are 1950 to 2049.
    [[nodiscard]] static Result<MonthYear> parse(std::string_view text);

    [[nodiscard]] int year() const { return m_index / 12; }
    [[nodiscard]] int month() const { return m_index % 12 + 1; }
    /// The month that lies `months` later (or earlier, when negative).
    [[nodiscard]] MonthYear plusMonths(int months) const { return MonthYear(m_index + months); }
    /// `YYYY-MM`.
    [[nodiscard]] std::string text() const;

    auto operator<=>(const MonthYear&) const = default;

private:
    explicit MonthYear(int index) : m_index(index) {}
    int m_index; // months since year 0
};

} // namespace tarebook
