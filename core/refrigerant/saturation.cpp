#include "core/refrigerant/saturation.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "core/refrigerant/peng_robinson.h"

namespace tarebook {

namespace {

constexpr double kLowestCelsius = -40;
constexpr double kHighestCelsius = 65;
constexpr double kUsableLiquid = 0.97; // of the pseudo-critical temperature
constexpr double kPairReferenceKelvin = 313.15;
constexpr int kMostSteps = 500;

struct Parts {
    std::vector<const Substance*> substances;
    std::vector<double> moles; // fractions
    double molarMass = 0;      // kg/kmol
    bool allFitted = true;
    double pairErrorPercent = 0; // of the worst pair
    std::vector<Pair> pairs;     // n x n
};

Result<Parts> partsOf(const Catalogue& catalogue, const Contents& contents) {
    Parts parts;
    double total = 0;
    for (const Component& component : contents) {
        const Substance* substance = catalogue.substance(component.designation);
        if (substance == nullptr) {
            return Error{fmt::format("{} has no property data", component.designation),
                         "use a catalogue designation"};
        }
        parts.substances.push_back(substance);
        parts.moles.push_back(component.massShare / substance->molarMass);
        total += parts.moles.back();
    }
    for (double& fraction : parts.moles) {
        fraction /= total;
    }
    parts.molarMass = 1 / total;
    for (const Component& one : contents) {
        for (const Component& other : contents) {
            parts.pairs.push_back(one.designation == other.designation
                                      ? Pair{0, 0, 0, true, 0}
                                      : catalogue.pair(one.designation, other.designation));
            parts.allFitted = parts.allFitted && parts.pairs.back().fitted;
            parts.pairErrorPercent =
                std::max(parts.pairErrorPercent, parts.pairs.back().pressureErrorPercent);
        }
        parts.allFitted = parts.allFitted && one.designation != "R744";
    }
    return parts;
}

Result<MixtureAt> mixtureAt(const Parts& parts, double kelvin) {
    MixtureAt mixture;
    mixture.kelvin = kelvin;
    std::vector<double> attractions;
    for (const Substance* substance : parts.substances) {
        const double covolume =
            0.0777961 * kGasConstant * substance->criticalKelvin / substance->criticalKilopascal;
        const double reduced = kelvin / substance->criticalKelvin;
        const double kappa =
            0.37464 + (1.54226 - 0.26992 * substance->acentricFactor) * substance->acentricFactor;
        const double alpha = std::pow(1 + kappa * (1 - std::sqrt(reduced)), 2);
        double attraction = 0.457235 / 0.0777961 * alpha / reduced; // a/(b R T)
        if (reduced < 0.9999) {
            const double pressure = substance->saturationPressure.at(kelvin);
            const double solved =
                attractionAtSaturation(pressure * covolume / (kGasConstant * kelvin), attraction);
            if (solved < 0) {
                return Error{fmt::format("the saturation of {} was not solved", substance->designation),
                             "ask for a temperature further from its critical one"};
            }
            attraction = solved;
        }
        mixture.covolume.push_back(covolume);
        attractions.push_back(attraction * covolume * kGasConstant * kelvin);
    }
    const std::size_t count = attractions.size();
    for (std::size_t row = 0; row < count; ++row) {
        for (std::size_t column = 0; column < count; ++column) {
            const Pair& pair = parts.pairs[row * count + column];
            const double k = pair.interaction + pair.interactionPerKelvin * (kelvin - kPairReferenceKelvin);
            mixture.attraction.push_back(std::sqrt(attractions[row] * attractions[column]) * (1 - k));
        }
    }
    return mixture;
}

/// Successive substitution from Raoult's law; a component above its critical temperature starts from Wilson's
/// estimate.
Result<double> bubblePressure(const Parts& parts, const MixtureAt& mixture) {
    const std::size_t count = parts.moles.size();
    std::vector<double> vapour(count);
    double pressure = 0;
    for (std::size_t part = 0; part < count; ++part) {
        const Substance& substance = *parts.substances[part];
        const double reduced = mixture.kelvin / substance.criticalKelvin;
        const double own = reduced < 0.9999
                               ? substance.saturationPressure.at(mixture.kelvin)
                               : substance.criticalKilopascal *
                                     std::exp(5.373 * (1 + substance.acentricFactor) * (1 - 1 / reduced));
        vapour[part] = parts.moles[part] * own;
        pressure += vapour[part];
    }
    for (double& fraction : vapour) {
        fraction /= pressure;
    }
    for (int step = 0; step < kMostSteps; ++step) {
        const auto liquidLogarithms = logFugacities(mixture, parts.moles, pressure, Phase::liquid);
        const auto vapourLogarithms = logFugacities(mixture, vapour, pressure, Phase::vapour);
        double sum = 0;
        double change = 0;
        std::vector<double> next(count);
        for (std::size_t part = 0; part < count; ++part) {
            next[part] = parts.moles[part] * std::exp(liquidLogarithms[part] - vapourLogarithms[part]);
            sum += next[part];
        }
        if (!std::isfinite(sum) || sum <= 0) {
            break;
        }
        for (std::size_t part = 0; part < count; ++part) {
            next[part] /= sum;
            change = std::max(change, std::abs(next[part] - vapour[part]));
        }
        vapour = next;
        pressure *= std::clamp(sum, 0.5, 2.0);
        if (std::abs(sum - 1) < 1e-9 && change < 1e-9) {
            double apart = 0;
            for (std::size_t part = 0; part < count; ++part) {
                apart = std::max(apart, std::abs(liquidLogarithms[part] - vapourLogarithms[part]));
            }
            if (apart < 1e-6) { // both phases have become one: the trivial solution
                break;
            }
            return pressure;
        }
    }
    return Error{"the bubble pressure was not found", "ask for a temperature further from the critical one"};
}

/// Corresponding states as described in resources/refrigerants/README.md.
Result<double> liquidDensity(const Parts& parts, double kelvin) {
    const std::size_t count = parts.moles.size();
    std::vector<double> volumes;
    double linear = 0;
    double twoThirds = 0;
    double third = 0;
    for (std::size_t part = 0; part < count; ++part) {
        const Substance& substance = *parts.substances[part];
        const double volume =
            substance.molarMass / substance.liquidDensity.at(0.7 * substance.criticalKelvin);
        volumes.push_back(volume);
        linear += parts.moles[part] * volume;
        twoThirds += parts.moles[part] * std::cbrt(volume * volume);
        third += parts.moles[part] * std::cbrt(volume);
    }
    double critical = 0;
    for (std::size_t row = 0; row < count; ++row) {
        for (std::size_t column = 0; column < count; ++column) {
            critical += parts.moles[row] * parts.moles[column] *
                        std::sqrt(volumes[row] * parts.substances[row]->criticalKelvin * volumes[column] *
                                  parts.substances[column]->criticalKelvin) *
                        (1 - parts.pairs[row * count + column].densityInteraction);
        }
    }
    critical /= (linear + 3 * twoThirds * third) / 4;
    if (kelvin > kUsableLiquid * critical) {
        return Error{fmt::format("no usable liquid: {:.1f} degC is too near the pseudo-critical {:.1f} degC",
                                 kelvin - 273.15, critical - 273.15),
                     "the pressure then depends on the mass in the cylinder"};
    }
    double volume = 0;
    for (std::size_t part = 0; part < count; ++part) {
        const Substance& substance = *parts.substances[part];
        volume += parts.moles[part] * substance.molarMass /
                  substance.liquidDensity.at(kelvin * substance.criticalKelvin / critical);
    }
    return parts.molarMass / volume;
}

} // namespace

Result<Saturation> saturationAt(const Catalogue& catalogue, const Contents& contents, double celsius) {
    if (!(celsius >= kLowestCelsius && celsius <= kHighestCelsius)) {
        return Error{fmt::format("{} degC is outside the range of the model", celsius),
                     fmt::format("ask between {} and {} degC", kLowestCelsius, kHighestCelsius)};
    }
    const double kelvin = celsius + 273.15;
    const auto parts = partsOf(catalogue, contents);
    if (!parts) {
        return parts.error();
    }
    for (const Substance* substance : parts.value().substances) {
        if (kelvin < substance->lowestKelvin) {
            return Error{fmt::format("{} has no data below {:.1f} degC", substance->designation,
                                     substance->lowestKelvin - 273.15),
                         "ask for a higher temperature"};
        }
    }
    if (contents.size() == 1) {
        const Substance& only = *parts.value().substances.front();
        if (kelvin >= only.criticalKelvin) {
            return Error{fmt::format("{} has no liquid above its critical {:.1f} degC", only.designation,
                                     only.criticalKelvin - 273.15),
                         "the pressure then depends on the mass in the cylinder"};
        }
        const bool nearCritical = kelvin > 0.98 * only.criticalKelvin;
        return Saturation{only.saturationPressure.at(kelvin), only.liquidDensity.at(kelvin), 0.3,
                          nearCritical ? 1.2 : 0.2};
    }
    const auto density = liquidDensity(parts.value(), kelvin);
    if (!density) {
        return density.error();
    }
    const auto mixture = mixtureAt(parts.value(), kelvin);
    if (!mixture) {
        return mixture.error();
    }
    const auto pressure = bubblePressure(parts.value(), mixture.value());
    if (!pressure) {
        return pressure.error();
    }
    const bool sure = parts.value().allFitted;
    const double pressureUncertainty = std::max(sure ? 1.2 : 5.0, parts.value().pairErrorPercent);
    return Saturation{pressure.value(), density.value(), pressureUncertainty, sure ? 1.0 : 3.0};
}

} // namespace tarebook
