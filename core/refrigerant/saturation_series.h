#pragma once

#include <array>

#include "core/refrigerant/equilibrium.h"
#include "core/refrigerant/liquid_density.h"
#include "core/refrigerant/parts.h"
#include "core/refrigerant/saturation.h"

namespace tarebook {

/// Saturation of the same parts at one temperature after the other: each answer is the guess for the next,
/// which saves half of the work. The parts must outlive it and stay where they are.
class SaturationSeries {
public:
    explicit SaturationSeries(const Parts& parts);
    /// As saturationAt().
    [[nodiscard]] Result<Saturation> at(Temperature temperature);

    [[nodiscard]] const LiquidModel& liquid() const { return m_liquid; }
    // Of a mixture, what the last answer was made from.
    [[nodiscard]] const MixtureAt& mixture() const { return m_points[m_last].mixture; }
    [[nodiscard]] const Equilibrium& bubble() const { return m_points[m_last].bubble; }
    [[nodiscard]] const Equilibrium& dew() const { return m_points[m_last].dew; }

private:
    struct Point {
        MixtureAt mixture;
        Equilibrium bubble;
        Equilibrium dew;
    };
    [[nodiscard]] Result<Saturation> mixtureAtTemperature(double kelvin);

    const Parts& m_parts;
    LiquidModel m_liquid;
    std::array<Point, 2> m_points;
    std::size_t m_last = 0;
    bool m_answered = false; // m_points[m_last] holds an answer
};

/// saturationAt() at several temperatures of the same contents, faster; neighbours help each other most.
[[nodiscard]] std::vector<Result<Saturation>> saturationsAt(const Catalogue& catalogue,
                                                            const Contents& contents,
                                                            const std::vector<Temperature>& temperatures);

} // namespace tarebook
