#include "core/refrigerant/liquid_density.h"

#include <cmath>

namespace tarebook {

namespace {
constexpr double kUsableLiquid = 0.97; // of the pseudo-critical temperature
} // namespace

LiquidModel::LiquidModel(const Parts& parts) : m_parts(parts) {
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
        linear += parts.moles[part] * volume;
        twoThirds += parts.moles[part] * root * root;
        third += parts.moles[part] * root;
    }
    for (std::size_t row = 0; row < count; ++row) {
        for (std::size_t column = 0; column < count; ++column) {
            m_critical += parts.moles[row] * parts.moles[column] * roots[row] * roots[column] *
                          (1 - parts.pairs[row * count + column]->densityInteraction);
        }
    }
    m_critical /= (linear + 3 * twoThirds * third) / 4;
}

double LiquidModel::highestKelvin() const {
    return kUsableLiquid * m_critical;
}

double LiquidModel::density(double kelvin) const {
    double volume = 0;
    for (std::size_t part = 0; part < m_parts.count; ++part) {
        const Substance& substance = *m_parts.substances[part];
        volume += m_parts.moles[part] * substance.molarMass /
                  substance.liquidDensity.at(kelvin * substance.criticalKelvin / m_critical);
    }
    return m_parts.molarMass / volume;
}

} // namespace tarebook
