#pragma once

#include <compare>
#include <string_view>

#include "core/base/result.h"

namespace tarebook {

/// A point on the temperature scale; what parse() gives is finite and not below absolute zero.
class Temperature {
public:
    /// Reads `21 C`, `70 F`, `-40 °C`, `294.26 K`. Error: no unit, no number, below absolute zero.
    [[nodiscard]] static Result<Temperature> parse(std::string_view text);
    [[nodiscard]] static constexpr Temperature fromCelsius(double celsius) {
        return Temperature(celsius + 273.15);
    }
    [[nodiscard]] static constexpr Temperature fromKelvin(double kelvin) { return Temperature(kelvin); }
    [[nodiscard]] constexpr double celsius() const { return m_kelvin - 273.15; }
    [[nodiscard]] constexpr double kelvin() const { return m_kelvin; }
    [[nodiscard]] constexpr double fahrenheit() const { return m_kelvin * 9 / 5 - 459.67; }
    constexpr auto operator<=>(const Temperature&) const = default;

private:
    explicit constexpr Temperature(double kelvin) : m_kelvin(kelvin) {}
    double m_kelvin;
};

} // namespace tarebook
