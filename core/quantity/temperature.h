#pragma once

#include <string_view>

#include "core/base/result.h"

namespace tarebook {

/// A point on the temperature scale; always finite and not below absolute zero.
class Temperature {
public:
    /// Reads `21 C`, `70 F`, `-40 °C`, `294.26 K`. Error: no unit, no number, below absolute zero.
    [[nodiscard]] static Result<Temperature> parse(std::string_view text);
    [[nodiscard]] double celsius() const { return m_kelvin - 273.15; }
    [[nodiscard]] double kelvin() const { return m_kelvin; }

private:
    explicit Temperature(double kelvin) : m_kelvin(kelvin) {}
    double m_kelvin;
};

} // namespace tarebook
