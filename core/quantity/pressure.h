#pragma once

#include <compare>

namespace tarebook {

inline constexpr double kKilopascalPerPsi =
    6.894757293168361; // from the exact pound, inch and standard gravity
inline constexpr double kStandardAtmosphereKilopascal = 101.325; // CGPM 1954

/// A pressure above that of the surroundings, as gauges and marks on cylinders show it.
class GaugePressure {
public:
    constexpr GaugePressure() = default;
    [[nodiscard]] static constexpr GaugePressure fromKilopascal(double value) { return GaugePressure(value); }
    [[nodiscard]] static constexpr GaugePressure fromPsi(double value) {
        return GaugePressure(value * kKilopascalPerPsi);
    }
    [[nodiscard]] static constexpr GaugePressure fromBar(double value) { return GaugePressure(value * 100); }
    [[nodiscard]] constexpr double kilopascal() const { return m_kilopascal; }
    [[nodiscard]] constexpr double psi() const { return m_kilopascal / kKilopascalPerPsi; }
    [[nodiscard]] constexpr double bar() const { return m_kilopascal / 100; }
    constexpr auto operator<=>(const GaugePressure&) const = default;

private:
    explicit constexpr GaugePressure(double kilopascal) : m_kilopascal(kilopascal) {}
    double m_kilopascal = 0;
};

/// A pressure above vacuum. Becomes a gauge pressure only where the surroundings are stated.
class AbsolutePressure {
public:
    constexpr AbsolutePressure() = default;
    [[nodiscard]] static constexpr AbsolutePressure fromKilopascal(double value) {
        return AbsolutePressure(value);
    }
    [[nodiscard]] constexpr double kilopascal() const { return m_kilopascal; }
    /// Against the standard atmosphere, the convention of ratings and tables.
    [[nodiscard]] constexpr GaugePressure gauge() const {
        return GaugePressure::fromKilopascal(m_kilopascal - kStandardAtmosphereKilopascal);
    }
    constexpr auto operator<=>(const AbsolutePressure&) const = default;

private:
    explicit constexpr AbsolutePressure(double kilopascal) : m_kilopascal(kilopascal) {}
    double m_kilopascal = 0;
};

} // namespace tarebook
