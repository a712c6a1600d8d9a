#include "core/quantity/decimal.h"

#include <fmt/format.h>

#include "core/base/text.h"

namespace tarebook {

namespace {
constexpr int kMostWholeDigits = 12;
constexpr int kMostPlaces = 6;
__extension__ using Wide = __int128;
} // namespace

Result<NumberWithUnit> readNumber(std::string_view text) {
    std::string_view rest = trimmed(text);
    NumberWithUnit read;
    int wholeDigits = 0;
    bool pointSeen = false;
    for (; !rest.empty(); rest.remove_prefix(1)) {
        const char character = rest.front();
        if (character == '.' && !pointSeen) {
            pointSeen = true;
            continue;
        }
        if (character < '0' || character > '9') {
            break;
        }
        int& count = pointSeen ? read.number.places : wholeDigits;
        ++count;
        if (wholeDigits > kMostWholeDigits || read.number.places > kMostPlaces) {
            return Error{
                fmt::format("{} has too many digits", tarebook::quoted(text)),
                fmt::format("at most {} before and {} after the point", kMostWholeDigits, kMostPlaces)};
        }
        read.number.digits = read.number.digits * 10 + (character - '0');
    }
    if (wholeDigits + read.number.places == 0) {
        return Error{fmt::format("{} does not begin with a number", tarebook::quoted(text)),
                     "write a number and its unit, as in 47.7 lb"};
    }
    read.rest = trimmed(rest);
    return read;
}

std::int64_t scaled(Decimal number, std::int64_t numerator, std::int64_t denominator) {
    Wide divisor = denominator;
    for (int place = 0; place < number.places; ++place) {
        divisor *= 10;
    }
    const Wide product = static_cast<Wide>(number.digits) * numerator;
    return static_cast<std::int64_t>((2 * product + divisor) / (2 * divisor));
}

} // namespace tarebook
