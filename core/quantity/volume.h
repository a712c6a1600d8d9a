#pragma once

#include <compare>

namespace tarebook {

/// An inner volume. For properties and drawings; the books know masses only.
class Volume {
public:
    constexpr Volume() = default;
    [[nodiscard]] static constexpr Volume fromLitres(double litres) { return Volume(litres); }
    [[nodiscard]] constexpr double litres() const { return m_litres; }
    [[nodiscard]] constexpr double cubicMetres() const { return m_litres / 1000; }
    constexpr auto operator<=>(const Volume&) const = default;

private:
    explicit constexpr Volume(double litres) : m_litres(litres) {}
    double m_litres = 0;
};

/// Mass in a volume.
class Density {
public:
    constexpr Density() = default;
    [[nodiscard]] static constexpr Density fromKilogramsPerCubicMetre(double value) { return Density(value); }
    [[nodiscard]] constexpr double kilogramsPerCubicMetre() const { return m_value; }
    constexpr auto operator<=>(const Density&) const = default;

private:
    explicit constexpr Density(double value) : m_value(value) {}
    double m_value = 0;
};

} // namespace tarebook
