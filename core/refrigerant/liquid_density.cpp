#include "core/refrigerant/liquid_density.h"

#include <cmath>

namespace tarebook {

namespace {
constexpr double kUsableLiquid = 0.97; // of the pseudo-critical temperature
} // namespace

LiquidModel::LiquidModel(const Parts& parts, const Numbers& moles) : m_parts(parts), m_moles(moles) {
    const std::size_t count = parts.count;
    Numbers roots;
    double linear = 0;
    double twoThirds = 0;
    double third = 0;
    for (std::size_t part = 0; part < count; ++part) {
        const Substance& substance = *parts.substances[part];
        const double volume = substance.characteristicVolume;
        const double root = std::cbrt(volume);
        roots[part] = std::sqrt(volume * substance.criticalKelvin);
        linear += moles[part] * volume;
        twoThirds += moles[part] * root * root;
        third += moles[part] * root;
    }
    for (std::size_t row = 0; row < count; ++row) {
        for (std::size_t column = 0; column < count; ++column) {
            const Pair& pair = *parts.pairs[row * count + column];
            const double both = moles[row] * moles[column];
            m_critical += both * roots[row] * roots[column] * (1 - pair.densityInteraction);
            m_excess += both * pair.excessVolume;
        }
    }
    m_critical /= (linear + 3 * twoThirds * third) / 4;
}

double LiquidModel::highestKelvin() const {
    return kUsableLiquid * m_critical;
}

double LiquidModel::density(double kelvin) const {
    double volume = 0;
    double mass = 0;
    for (std::size_t part = 0; part < m_parts.count; ++part) {
        const Substance& substance = *m_parts.substances[part];
        const double share = m_moles[part] * substance.molarMass;
        mass += share;
        volume += share / substance.liquidDensity.at(kelvin * substance.criticalKelvin / m_critical);
    }
    return mass / (volume * (1 + m_excess));
}

} // namespace tarebook
