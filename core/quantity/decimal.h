#pragma once

#include <cstdint>
#include <string_view>

#include "core/base/result.h"

namespace tarebook {

/// An unsigned decimal number as it was typed: digits / 10^places. At most 12 digits before and 6 after the
/// point.
struct Decimal {
    std::int64_t digits = 0;
    int places = 0;
};

/// A number and the text behind it: `47.7 lb` is 47.7 and `lb`.
struct NumberWithUnit {
    Decimal number;
    std::string_view rest;
};

/// Reads the number at the beginning of the text (a point as decimal mark, no sign, no exponent).
[[nodiscard]] Result<NumberWithUnit> readNumber(std::string_view text);

/// number * numerator / denominator, rounded to the nearest integer, half away from zero. The product must
/// fit in 127 bits: with numerators below 2^40 it always does.
[[nodiscard]] std::int64_t scaled(Decimal number, std::int64_t numerator, std::int64_t denominator);

} // namespace tarebook
