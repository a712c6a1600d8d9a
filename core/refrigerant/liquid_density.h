#pragma once

#include <vector>

#include "core/refrigerant/parts.h"

namespace tarebook {

/// Saturated liquid of a mixture by corresponding states on its components' own saturated liquids; constants
/// and proof in resources/refrigerants/README.md.
class LiquidModel {
public:
    /// moles: fractions of the liquid, which need not be those of the whole. Both must outlive the model.
    LiquidModel(const Parts& parts, const Numbers& moles);
    /// Of the corresponding state, K; near the mixture's critical temperature, not equal to it.
    [[nodiscard]] double pseudoCriticalKelvin() const { return m_critical; }
    /// Above this (0.97 of the pseudo-critical) there is no usable liquid, K.
    [[nodiscard]] double highestKelvin() const;
    /// Density at the bubble point, kg/m3; for kelvin <= highestKelvin().
    [[nodiscard]] double density(double kelvin) const;

private:
    const Parts& m_parts;
    const Numbers& m_moles;
    double m_critical = 0;
    double m_excess = 0; // of the volume, as a share
};

} // namespace tarebook
