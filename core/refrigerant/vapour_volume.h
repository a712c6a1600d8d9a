#pragma once

#include "core/refrigerant/equilibrium.h"
#include "core/refrigerant/parts.h"

namespace tarebook {

/// Molar volume of the vapour of an equilibrium, from Peng-Robinson and what it misses: each substance at its
/// own saturation has a vapour density of its own equation of state, and the difference in volume, about that
/// of the second virial coefficients, does not depend on the pressure. It counts by mole fraction, in full
/// for thin vapour and not at all for a dense one.
class VapourVolume {
public:
    /// `mixture` is mixtureAt() of the parts.
    VapourVolume(const Parts& parts, const MixtureAt& mixture);
    /// m3/kmol.
    [[nodiscard]] double of(const Equilibrium& point) const;

private:
    std::size_t m_count;
    double m_thermal; // R T
    Numbers m_missed; // m3/kmol
};

} // namespace tarebook
