#include "core/refrigerant/saturation.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/refrigerant/designation.h"
#include "core/refrigerant/equilibrium.h"
#include "core/refrigerant/liquid_density.h"
#include "core/refrigerant/parts.h"
#include "core/refrigerant/uncertainty.h"
#include "core/refrigerant/vapour_volume.h"

namespace tarebook {

namespace {

constexpr double kPurePressurePercent = 0.3;
constexpr double kPermanent = 1.22; // times the critical temperature: nitrogen, oxygen, argon, methane, R-14
constexpr double kPermanentTrace = 1e-4; // by mole

Error noLiquid(const std::string& what, double criticalKelvin) {
    return Error{fmt::format("{}: no liquid, the limit is {:.1f} degC", what, criticalKelvin - 273.15),
                 "the pressure then depends on the mass in the cylinder"};
}

Result<Saturation> pureAt(const Parts& parts, double kelvin) {
    const Substance& substance = *parts.substances[0];
    if (kelvin >= substance.criticalKelvin) {
        return noLiquid(displayedDesignation(substance.designation) + " is above its critical temperature",
                        substance.criticalKelvin);
    }
    const auto pressure = AbsolutePressure::fromKilopascal(substance.saturationPressure.at(kelvin));
    return Saturation{pressure,
                      pressure,
                      Density::fromKilogramsPerCubicMetre(substance.liquidDensity.at(kelvin)),
                      Density::fromKilogramsPerCubicMetre(substance.vapourDensity.at(kelvin)),
                      kPurePressurePercent,
                      kPurePressurePercent,
                      densityUncertaintyPercent(parts, kelvin),
                      {}};
}

constexpr double kHighestPressure = 1.5; // times the mean critical pressure; the reference rows reach 0.91
constexpr double kAzeotropic = 1.05;     // times the highest saturation pressure of a substance
constexpr double kWarmer = 0.5;          // K

/// Why a bubble point that was found is none of a liquid under its vapour; empty when it is one.
std::string unusable(const Parts& parts, double kelvin, const Equilibrium& bubble, const Equilibrium& dew) {
    double criticalPressure = 0;
    double highestOwn = 0; // of the saturation pressures
    bool supercritical = false;
    for (std::size_t part = 0; part < parts.count; ++part) {
        criticalPressure += parts.moles[part] * parts.substances[part]->criticalKilopascal;
        highestOwn = std::max(highestOwn, parts.substances[part]->saturationPressure.at(kelvin));
        supercritical = supercritical || kelvin > parts.substances[part]->criticalKelvin;
    }
    if (!bubble.liquidIsStable || dew.kilopascal > bubble.kilopascal * (1 + 1e-9)) {
        return "the liquid may divide into two layers";
    }
    if (bubble.kilopascal > kHighestPressure * criticalPressure) {
        return fmt::format("the gas in it does not dissolve below {:.0f} bar", bubble.kilopascal / 100);
    }
    if (supercritical || bubble.kilopascal > kAzeotropic * highestOwn) {
        // two dense phases, or a gas that hardly dissolves: their pressure falls as they get warmer
        const auto warmer = equilibriumAt(parts, kelvin + kWarmer, 0, &bubble);
        if (!warmer || warmer->kilopascal <= bubble.kilopascal) {
            return "liquid and gas are too much alike";
        }
    }
    return {};
}

Result<Saturation> mixtureSaturation(const Parts& parts, double kelvin) {
    const LiquidModel liquid(parts, parts.moles);
    if (kelvin > liquid.highestKelvin()) {
        return noLiquid("the mixture is too near its critical temperature", liquid.highestKelvin());
    }
    MixtureAt mixture;
    mixtureAt(parts, kelvin, mixture);
    const auto bubble = equilibriumOf(parts, mixture, 0);
    const auto dew = equilibriumOf(parts, mixture, 1);
    if (!bubble || !dew) {
        return Error{fmt::format("the {} pressure was not found", bubble ? "dew" : "bubble"),
                     "ask for a temperature further from the critical one"};
    }
    const std::string reason = unusable(parts, kelvin, *bubble, *dew);
    if (!reason.empty()) {
        return Error{reason + ", which the model does not follow", "ask for another temperature"};
    }
    const Uncertainty uncertainty = uncertaintyOf(parts, kelvin / liquid.pseudoCriticalKelvin());
    const double vapour = parts.molarMass / VapourVolume(parts, kelvin).of(*dew);
    return Saturation{AbsolutePressure::fromKilopascal(bubble->kilopascal),
                      AbsolutePressure::fromKilopascal(dew->kilopascal),
                      Density::fromKilogramsPerCubicMetre(liquid.density(kelvin)),
                      Density::fromKilogramsPerCubicMetre(vapour),
                      uncertainty.bubblePercent,
                      uncertainty.dewPercent,
                      uncertainty.densityPercent,
                      uncertainty.remarks};
}

/// A substance so far above its critical temperature that it is no part of a liquid but a gas over it, where
/// there is enough of it to matter in a mixture.
const Substance* permanentGas(const Parts& parts, double kelvin) {
    for (std::size_t part = 0; parts.count > 1 && part < parts.count; ++part) {
        if (kelvin > kPermanent * parts.substances[part]->criticalKelvin &&
            parts.moles[part] > kPermanentTrace) {
            return parts.substances[part];
        }
    }
    return nullptr;
}

} // namespace

Result<Saturation> saturationAt(const Catalogue& catalogue, const Contents& contents,
                                Temperature temperature) {
    if (!(temperature >= kLowestSaturation && temperature <= kHighestSaturation)) {
        return Error{fmt::format("{:.1f} degC is outside the range of the model", temperature.celsius()),
                     fmt::format("ask between {:.0f} and {:.0f} degC", kLowestSaturation.celsius(),
                                 kHighestSaturation.celsius())};
    }
    const double kelvin = temperature.kelvin();
    const auto parts = partsOf(catalogue, contents);
    if (!parts) {
        return parts.error();
    }
    for (std::size_t part = 0; part < parts.value().count; ++part) {
        const Substance& substance = *parts.value().substances[part];
        if (kelvin < substance.lowestKelvin) {
            return Error{fmt::format("{} has no data below {:.1f} degC",
                                     displayedDesignation(substance.designation),
                                     substance.lowestKelvin - 273.15),
                         "ask for a higher temperature"};
        }
    }
    const Substance* permanent = permanentGas(parts.value(), kelvin);
    if (permanent != nullptr) {
        return Error{fmt::format("{} does not condense at {:.1f} degC",
                                 displayedDesignation(permanent->designation), temperature.celsius()),
                     "ask for the contents without it, and for its share as air in the gas space"};
    }
    return parts.value().count == 1 ? pureAt(parts.value(), kelvin)
                                    : mixtureSaturation(parts.value(), kelvin);
}

AbsolutePressure safeBubble(const Saturation& saturation) {
    return AbsolutePressure::fromKilopascal(saturation.bubble.kilopascal() *
                                            (1 + saturation.bubbleUncertaintyPercent / 100));
}

Density safeLiquid(const Saturation& saturation) {
    return Density::fromKilogramsPerCubicMetre(saturation.liquid.kilogramsPerCubicMetre() *
                                               (1 - saturation.densityUncertaintyPercent / 100));
}

} // namespace tarebook
