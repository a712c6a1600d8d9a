#include "core/refrigerant/vapour_volume.h"

#include <algorithm>

namespace tarebook {

namespace {

// Of the critical temperature: nearer the difference is no longer one of the second virial coefficient.
constexpr double kHighestOwn = 0.98;
constexpr double kDense = 0.6; // compressibility factors between which the difference fades in
constexpr double kThin = 0.8;

} // namespace

VapourVolume::VapourVolume(const Parts& parts, const MixtureAt& mixture)
    : m_count(parts.count), m_thermal(kGasConstant * mixture.kelvin) {
    for (std::size_t part = 0; part < m_count; ++part) {
        const Substance& substance = *parts.substances[part];
        const double highest = kHighestOwn * substance.criticalKelvin;
        const double own = std::min(mixture.kelvin, highest);
        const double pressure =
            mixture.kelvin < highest ? mixture.ownPressure[part] : substance.saturationPressure.at(own);
        const double b = pressure * substance.covolume / (kGasConstant * own);
        const double z = compressibility(attractionAtSaturation(b) * b, b, Phase::vapour);
        m_missed[part] =
            substance.molarMass / substance.vapourDensity.at(own) - z * kGasConstant * own / pressure;
    }
}

double VapourVolume::of(const Equilibrium& point) const {
    const double z = point.vapourCompressibility;
    double missed = 0;
    double sum = 0;
    for (std::size_t part = 0; part < m_count; ++part) {
        missed += point.vapour[part] * m_missed[part];
        sum += point.vapour[part];
    }
    return z * m_thermal / point.kilopascal +
           missed / sum * std::clamp((z - kDense) / (kThin - kDense), 0.0, 1.0);
}

} // namespace tarebook
