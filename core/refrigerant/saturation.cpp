#include "core/refrigerant/saturation.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/refrigerant/designation.h"
#include "core/refrigerant/equilibrium.h"
#include "core/refrigerant/parts.h"
#include "core/refrigerant/saturation_series.h"
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
std::string unusable(const Parts& parts, const MixtureAt& mixture, const Equilibrium& bubble,
                     const Equilibrium& dew) {
    const double kelvin = mixture.kelvin;
    double criticalPressure = 0;
    double highestOwn = 0; // of the saturation pressures
    bool supercritical = false;
    for (std::size_t part = 0; part < parts.count; ++part) {
        const Substance& substance = *parts.substances[part];
        criticalPressure += parts.moles[part] * substance.criticalKilopascal;
        highestOwn = std::max(highestOwn, std::min(mixture.ownPressure[part], substance.criticalKilopascal));
        supercritical = supercritical || kelvin > substance.criticalKelvin;
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

SaturationSeries::SaturationSeries(const Parts& parts) : m_parts(parts), m_liquid(parts, parts.moles) {}

Result<Saturation> SaturationSeries::mixtureAtTemperature(double kelvin) {
    if (kelvin > m_liquid.highestKelvin()) {
        return noLiquid("the mixture is too near its critical temperature", m_liquid.highestKelvin());
    }
    const Point& before = m_points[m_last];
    Point& here = m_points[1 - m_last];
    mixtureAt(m_parts, kelvin, here.mixture);
    const auto bubble = m_answered
                            ? equilibriumNear(m_parts, here.mixture, 0, {&before.bubble, &before.mixture})
                            : equilibriumOf(m_parts, here.mixture, 0);
    if (!bubble) {
        return Error{"the bubble pressure was not found",
                     "ask for a temperature further from the critical one"};
    }
    here.bubble = *bubble;
    const NearEquilibrium near = m_answered ? NearEquilibrium{&before.dew, &before.mixture}
                                            : NearEquilibrium{&here.bubble, &here.mixture};
    const auto dew = equilibriumNear(m_parts, here.mixture, 1, near);
    if (!dew) {
        return Error{"the dew pressure was not found", "ask for a temperature further from the critical one"};
    }
    here.dew = *dew;
    const std::string reason = unusable(m_parts, here.mixture, here.bubble, here.dew);
    if (!reason.empty()) {
        return Error{reason + ", which the model does not follow", "ask for another temperature"};
    }
    m_last = 1 - m_last;
    m_answered = true;
    Uncertainty uncertainty = uncertaintyOf(m_parts, kelvin / m_liquid.pseudoCriticalKelvin());
    const double vapour = m_parts.molarMass / VapourVolume(m_parts, here.mixture).of(here.dew);
    return Saturation{AbsolutePressure::fromKilopascal(here.bubble.kilopascal),
                      AbsolutePressure::fromKilopascal(here.dew.kilopascal),
                      Density::fromKilogramsPerCubicMetre(m_liquid.density(kelvin)),
                      Density::fromKilogramsPerCubicMetre(vapour),
                      uncertainty.bubblePercent,
                      uncertainty.dewPercent,
                      uncertainty.densityPercent,
                      std::move(uncertainty.remarks)};
}

Result<Saturation> SaturationSeries::at(Temperature temperature) {
    if (!(temperature >= kLowestSaturation && temperature <= kHighestSaturation)) {
        return Error{fmt::format("{:.1f} degC is outside the range of the model", temperature.celsius()),
                     fmt::format("ask between {:.0f} and {:.0f} degC", kLowestSaturation.celsius(),
                                 kHighestSaturation.celsius())};
    }
    const double kelvin = temperature.kelvin();
    for (std::size_t part = 0; part < m_parts.count; ++part) {
        const Substance& substance = *m_parts.substances[part];
        if (kelvin < substance.lowestKelvin) {
            return Error{fmt::format("{} has no data below {:.1f} degC",
                                     displayedDesignation(substance.designation),
                                     substance.lowestKelvin - 273.15),
                         "ask for a higher temperature"};
        }
    }
    const Substance* permanent = permanentGas(m_parts, kelvin);
    if (permanent != nullptr) {
        return Error{fmt::format("{} does not condense at {:.1f} degC",
                                 displayedDesignation(permanent->designation), temperature.celsius()),
                     "ask for the contents without it, and for its share as air in the gas space"};
    }
    return m_parts.count == 1 ? pureAt(m_parts, kelvin) : mixtureAtTemperature(kelvin);
}

Result<Saturation> saturationAt(const Catalogue& catalogue, const Contents& contents,
                                Temperature temperature) {
    const auto parts = partsOf(catalogue, contents);
    return parts ? SaturationSeries(parts.value()).at(temperature) : Result<Saturation>(parts.error());
}

std::vector<Result<Saturation>> saturationsAt(const Catalogue& catalogue, const Contents& contents,
                                              const std::vector<Temperature>& temperatures) {
    const auto parts = partsOf(catalogue, contents);
    if (!parts) {
        return {temperatures.size(), Result<Saturation>(parts.error())};
    }
    SaturationSeries series(parts.value());
    std::vector<Result<Saturation>> list;
    list.reserve(temperatures.size());
    for (const Temperature temperature : temperatures) {
        list.push_back(series.at(temperature));
    }
    return list;
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
