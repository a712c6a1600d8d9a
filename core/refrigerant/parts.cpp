#include "core/refrigerant/parts.h"

#include <cmath>

#include <fmt/format.h>

namespace tarebook {

namespace {

constexpr double kPairReferenceKelvin = 313.15;
constexpr double kNothing = 1e-12;        // by mass, counts as not there
constexpr double kOwnSaturation = 0.9999; // of the critical temperature: above it the alpha function

/// Above the critical temperature Wilson's estimate (AIChE national meeting, 1968), kPa.
double ownPressureOf(const Substance& substance, double kelvin) {
    const double reduced = kelvin / substance.criticalKelvin;
    return reduced < kOwnSaturation
               ? substance.saturationPressure.at(kelvin)
               : substance.criticalKilopascal *
                     std::exp(5.373 * (1 + substance.acentricFactor) * (1 - 1 / reduced));
}

/// a/(b R T).
double attractionOf(const Substance& substance, double kelvin, double ownPressure) {
    const double reduced = kelvin / substance.criticalKelvin;
    if (reduced < kOwnSaturation) {
        return attractionAtSaturation(ownPressure * substance.covolume / (kGasConstant * kelvin));
    }
    const double kappa = 0.37464 + (1.54226 - 0.26992 * substance.acentricFactor) * substance.acentricFactor;
    const double root = 1 + kappa * (1 - std::sqrt(reduced));
    return kAttractionFactor / kCovolumeFactor * root * root / reduced;
}

} // namespace

Result<Parts> partsOf(const Catalogue& catalogue, const Contents& contents) {
    Parts parts;
    if (contents.empty() || contents.size() > kMostSubstances) {
        return Error{fmt::format("the contents have {} substances", contents.size()),
                     fmt::format("the model answers for one to {}", kMostSubstances)};
    }
    double total = 0;
    for (const Component& component : contents) {
        const Substance* substance = catalogue.substance(component.designation);
        if (substance == nullptr || !(component.massShare >= 0)) {
            return Error{fmt::format("{} has no property data", component.designation),
                         "use a catalogue designation"};
        }
        if (component.massShare > kNothing) {
            // Always in one order: sums would else differ in their last digit, and with them where an
            // iteration ends.
            std::size_t place = parts.count++;
            for (; place > 0 && substance->designation < parts.substances[place - 1]->designation; --place) {
                parts.substances[place] = parts.substances[place - 1];
                parts.moles[place] = parts.moles[place - 1];
            }
            parts.substances[place] = substance;
            parts.moles[place] = component.massShare / substance->molarMass;
        }
    }
    for (std::size_t part = 0; part < parts.count; ++part) {
        total += parts.moles[part];
    }
    if (!(total > 0 && std::isfinite(total))) {
        return Error{"the contents hold nothing", "at least one share must be above zero"};
    }
    for (std::size_t part = 0; part < parts.count; ++part) {
        parts.moles[part] /= total;
        parts.molarMass += parts.moles[part] * parts.substances[part]->molarMass;
        for (std::size_t other = 0; other < parts.count; ++other) {
            parts.pairs[part * parts.count + other] =
                &catalogue.pair(*parts.substances[part], *parts.substances[other]);
        }
    }
    return parts;
}

void mixtureAt(const Parts& parts, double kelvin, MixtureAt& mixture) {
    mixture.count = parts.count;
    mixture.kelvin = kelvin;
    mixture.lopsided = false;
    Numbers roots;
    for (std::size_t part = 0; part < parts.count; ++part) {
        const Substance& substance = *parts.substances[part];
        mixture.covolume[part] = substance.covolume;
        mixture.ownPressure[part] = ownPressureOf(substance, kelvin);
        roots[part] = std::sqrt(attractionOf(substance, kelvin, mixture.ownPressure[part]) *
                                substance.covolume * kGasConstant * kelvin);
    }
    for (std::size_t row = 0; row < parts.count; ++row) {
        for (std::size_t column = 0; column < parts.count; ++column) {
            const Pair& pair = *parts.pairs[row * parts.count + column];
            const double k = pair.interaction + pair.interactionPerKelvin * (kelvin - kPairReferenceKelvin);
            const double mean = roots[row] * roots[column];
            mixture.attraction[row * parts.count + column] = mean * (1 - k);
            mixture.asymmetry[row * parts.count + column] = mean * pair.asymmetry;
            mixture.lopsided = mixture.lopsided || pair.asymmetry != 0;
        }
    }
}

} // namespace tarebook
