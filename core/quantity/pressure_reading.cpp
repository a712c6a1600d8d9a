#include "core/quantity/pressure_reading.h"

#include <cmath>
#include <string>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/quantity/decimal.h"

namespace tarebook {

namespace {

constexpr double kHighestKilopascal = 1e5;

} // namespace

Result<GaugePressure> parseGaugePressure(std::string_view text) {
    const std::string_view whole = trimmed(text);
    const bool negative = whole.starts_with('-');
    const auto read = readNumber(negative ? whole.substr(1) : whole);
    const Error unreadable{fmt::format("{} is no gauge pressure", tarebook::quoted(text)),
                           "write it with its unit, as 201 psig, 13.9 bar or 1390 kPa"};
    if (!read) {
        return unreadable;
    }
    const double size =
        static_cast<double>(read.value().number.digits) / std::pow(10.0, read.value().number.places);
    const double number = negative ? -size : size;
    const std::string unit = lowered(trimmed(read.value().rest));
    double kilopascal = 0;
    if (unit == "psig" || unit == "psi") {
        kilopascal = number * kKilopascalPerPsi;
    } else if (unit == "bar" || unit == "barg" || unit == "bar g") {
        kilopascal = number * 100;
    } else if (unit == "kpa") {
        kilopascal = number;
    } else if (unit == "mpa") {
        kilopascal = number * 1000;
    } else {
        return unreadable;
    }
    if (kilopascal < -kStandardAtmosphereKilopascal || kilopascal > kHighestKilopascal) {
        return Error{fmt::format("{} is below vacuum or above 1000 bar", tarebook::quoted(text)),
                     "check the number and its unit"};
    }
    return GaugePressure::fromKilopascal(kilopascal);
}

} // namespace tarebook
