#include "core/quantity/temperature.h"

#include <cmath>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/quantity/decimal.h"

namespace tarebook {

Result<Temperature> Temperature::parse(std::string_view text) {
    const std::string_view whole = trimmed(text);
    const bool negative = whole.starts_with('-');
    const auto read = readNumber(negative ? whole.substr(1) : whole);
    const Error unreadable{fmt::format("{} is not a temperature", tarebook::quoted(text)),
                           "write it with its unit, as 21 C, 70 F or 294.26 K"};
    if (!read) {
        return unreadable;
    }
    const double size =
        static_cast<double>(read.value().number.digits) / std::pow(10.0, read.value().number.places);
    const double number = negative ? -size : size;
    const std::string unit = lowered(read.value().rest);
    double kelvin = 0;
    if (unit == "c" || unit == "°c" || unit == "degc") {
        kelvin = number + 273.15;
    } else if (unit == "f" || unit == "°f" || unit == "degf") {
        kelvin = (number + 459.67) * 5 / 9;
    } else if (unit == "k") {
        kelvin = number;
    } else {
        return unreadable;
    }
    if (kelvin < 0) {
        return Error{fmt::format("{} is below absolute zero", tarebook::quoted(text)),
                     "check the number and its unit"};
    }
    return Temperature(kelvin);
}

} // namespace tarebook
