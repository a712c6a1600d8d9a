#include "core/refrigerant/cylinder_state.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "core/refrigerant/equilibrium.h"
#include "core/refrigerant/liquid_density.h"
#include "core/refrigerant/parts.h"
#include "core/refrigerant/saturation_series.h"
#include "core/refrigerant/uncertainty.h"
#include "core/refrigerant/vapour_volume.h"

namespace tarebook {

namespace {

constexpr double kSinglePhaseUncertainty = 15; // per cent; Peng-Robinson at dense states
constexpr int kMostSteps = 60;
constexpr double kVolumeTolerance = 1e-8;

/// Peng-Robinson at a molar volume, kPa.
double pressureAtVolume(const Parts& parts, double kelvin, double molarVolume) {
    MixtureAt mixture;
    mixtureAt(parts, kelvin, mixture);
    const double attraction = mixtureAttraction(mixture, parts.moles);
    double covolume = 0;
    for (std::size_t row = 0; row < parts.count; ++row) {
        covolume += parts.moles[row] * mixture.covolume[row];
    }
    const double room = std::max(molarVolume, 1.05 * covolume);
    return kGasConstant * kelvin / (room - covolume) -
           attraction / (room * (room + 2 * covolume) - covolume * covolume);
}

Mass partOf(Mass mass, double share) {
    const double milligrams = static_cast<double>(mass.milligrams()) * std::clamp(share, 0.0, 1.0);
    return Mass::fromMilligrams(std::llround(milligrams));
}

void divide(RestingContents& state, Mass mass, double liquidMassShare) {
    state.liquid = partOf(mass, liquidMassShare);
    state.vapour = Mass::fromMilligrams(mass.milligrams() - state.liquid.milligrams());
}

double molarMassOf(const Parts& parts, const Numbers& moles) {
    double mass = 0;
    for (std::size_t part = 0; part < parts.count; ++part) {
        mass += moles[part] * parts.substances[part]->molarMass;
    }
    return mass;
}

/// Volumes of both phases per kmol of the whole.
struct Volumes {
    double liquid = 0;
    double vapour = 0;
};

Volumes volumesOf(const Parts& parts, const VapourVolume& vapour, const Equilibrium& point, double kelvin,
                  double vapourShare) {
    const LiquidModel model(parts, point.liquid);
    return {(1 - vapourShare) * molarMassOf(parts, point.liquid) / model.density(kelvin),
            vapourShare * vapour.of(point)};
}

/// Between two equilibria, as a guess.
Equilibrium between(const Parts& parts, const Equilibrium& low, const Equilibrium& high, double share) {
    Equilibrium guess = low;
    for (std::size_t part = 0; part < parts.count; ++part) {
        guess.logRatio[part] += share * (high.logRatio[part] - low.logRatio[part]);
    }
    guess.kilopascal *= std::pow(high.kilopascal / low.kilopascal, share);
    return guess;
}

/// The share of vapour, by mole, with which the phases fill the volume; false when an equilibrium is missing.
bool splitMixture(const Parts& parts, const SaturationSeries& series, double molarVolume, Mass mass,
                  RestingContents& state) {
    const MixtureAt& mixture = series.mixture();
    const double kelvin = mixture.kelvin;
    const VapourVolume vapour(parts, mixture);
    double low = 0;
    double high = 1;
    double before = 0;
    double beforeGap = volumesOf(parts, vapour, series.bubble(), kelvin, 0).liquid - molarVolume;
    const double dewGap = volumesOf(parts, vapour, series.dew(), kelvin, 1).vapour - molarVolume;
    double share = -beforeGap / (dewGap - beforeGap);
    Equilibrium point = between(parts, series.bubble(), series.dew(), share);
    Volumes volumes;
    for (int step = 0; step < kMostSteps; ++step) {
        const auto found = equilibriumOf(parts, mixture, share, &point);
        if (!found) {
            return false;
        }
        point = *found;
        volumes = volumesOf(parts, vapour, point, kelvin, share);
        const double gap = volumes.liquid + volumes.vapour - molarVolume;
        if (std::abs(gap) < kVolumeTolerance * molarVolume || high - low < 1e-13) {
            break;
        }
        (gap < 0 ? low : high) = share;
        const double next = share - gap * (share - before) / (gap - beforeGap); // the secant
        before = share;
        beforeGap = gap;
        share = next > low && next < high && step < kMostSteps / 4 ? next : (low + high) / 2;
    }
    state.filling = Filling::liquidAndVapour;
    state.pressure = AbsolutePressure::fromKilopascal(point.kilopascal);
    state.liquidShare = volumes.liquid / molarVolume;
    divide(state, mass, (1 - share) * molarMassOf(parts, point.liquid) / parts.molarMass);
    return true;
}

void alone(RestingContents& state, Filling filling, double kilopascal, Mass mass) {
    const bool liquid = filling == Filling::liquidFull;
    state.filling = filling;
    state.pressure = AbsolutePressure::fromKilopascal(kilopascal);
    state.liquidShare = liquid ? 1 : 0;
    divide(state, mass, liquid ? 1 : 0);
}

/// Of contents whose saturation is known.
Result<RestingContents> saturated(const Parts& parts, const SaturationSeries& series,
                                  const Saturation& saturation, double density, Mass mass, double kelvin) {
    RestingContents state;
    state.pressureUncertaintyPercent = saturation.bubbleUncertaintyPercent;
    state.remarks = saturation.remarks;
    const double liquid = saturation.liquid.kilogramsPerCubicMetre();
    const double vapour = saturation.vapour.kilogramsPerCubicMetre();
    if (density >= liquid) {
        alone(state, Filling::liquidFull, saturation.bubble.kilopascal(), mass);
        state.remarks.emplace_back("Liquid-full: the pressure rises by several bar with every degree");
    } else if (density <= vapour) {
        const double pressure = pressureAtVolume(parts, kelvin, parts.molarMass / density);
        alone(state, Filling::vapourOnly, std::min(pressure, saturation.dew.kilopascal()), mass);
    } else if (parts.count == 1) {
        state.pressure = saturation.bubble;
        state.liquidShare = (density - vapour) / (liquid - vapour);
        divide(state, mass, state.liquidShare * liquid / density);
    } else if (!splitMixture(parts, series, parts.molarMass / density, mass, state)) {
        return Error{"the split into liquid and vapour was not found",
                     "ask for a temperature further from the critical one"};
    }
    return state;
}

/// ln p is nearly straight over 1/T: false position with halving.
template <typename Pressure>
Result<Temperature> temperatureOf(const Catalogue& catalogue, const Contents& contents,
                                  AbsolutePressure wanted, const Pressure& pressure) {
    double low = kLowestSaturation.kelvin();
    double high = kHighestSaturation.kelvin();
    const auto parts = partsOf(catalogue, contents);
    if (!parts) {
        return parts.error();
    }
    SaturationSeries series(parts.value());
    for (std::size_t part = 0; part < parts.value().count; ++part) {
        low = std::max(low, parts.value().substances[part]->lowestKelvin);
    }
    const double end = parts.value().count == 1 ? parts.value().substances[0]->criticalKelvin * (1 - 1e-9)
                                                : series.liquid().highestKelvin();
    high = std::min(high, end);
    const auto gapAt = [&](double kelvin) -> Result<double> {
        const auto found = series.at(Temperature::fromKelvin(kelvin));
        if (!found) {
            return found.error();
        }
        return std::log(pressure(found.value()).kilopascal() / wanted.kilopascal());
    };
    auto lowGap = high > low && wanted.kilopascal() > 0 ? gapAt(low) : Result<double>(1.0);
    const auto highGap = high > low && wanted.kilopascal() > 0 ? gapAt(high) : Result<double>(-1.0);
    if (!lowGap || !highGap) {
        return lowGap ? highGap.error() : lowGap.error();
    }
    if (lowGap.value() > 0 || highGap.value() < 0) {
        return Error{fmt::format("{:.1f} kPa is not reached between {:.1f} and {:.1f} degC",
                                 wanted.kilopascal(), low - 273.15, high - 273.15),
                     "ask for an absolute pressure within that range"};
    }
    double lower = lowGap.value();
    double upper = highGap.value();
    double kelvin = low;
    for (int step = 0; step < kMostSteps && high - low > 1e-9; ++step) {
        const double inverse = 1 / low - lower * (1 / high - 1 / low) / (upper - lower);
        kelvin = step % 4 == 3 ? (low + high) / 2 : std::clamp(1 / inverse, low, high);
        const auto gap = gapAt(kelvin);
        if (!gap) {
            return gap.error();
        }
        if (std::abs(gap.value()) < 1e-11) {
            break;
        }
        (gap.value() < 0 ? low : high) = kelvin;
        (gap.value() < 0 ? lower : upper) = gap.value();
    }
    return Temperature::fromKelvin(kelvin);
}

} // namespace

Result<RestingContents> cylinderStateAt(const Catalogue& catalogue, const Contents& contents, Mass mass,
                                        Volume volume, Temperature temperature) {
    if (mass.milligrams() <= 0 || !(volume.litres() > 0)) {
        return Error{"the mass and the volume must be above zero", "give the net weight and water capacity"};
    }
    const auto parts = partsOf(catalogue, contents);
    if (!parts) {
        return parts.error();
    }
    const double density = mass.kilograms() / volume.cubicMetres();
    const double kelvin = temperature.kelvin();
    SaturationSeries series(parts.value());
    const auto saturation = series.at(temperature);
    if (saturation) {
        return saturated(parts.value(), series, saturation.value(), density, mass, kelvin);
    }
    const bool inRange = temperature >= kLowestSaturation && temperature <= kHighestSaturation;
    const bool beyond = parts.value().count == 1 ? kelvin >= parts.value().substances[0]->criticalKelvin
                                                 : kelvin > series.liquid().highestKelvin();
    if (!inRange || !beyond) {
        return saturation.error();
    }
    double pressure = pressureAtVolume(parts.value(), kelvin, parts.value().molarMass / density);
    const auto bubble = parts.value().count == 1 ? std::nullopt : equilibriumAt(parts.value(), kelvin, 0);
    RestingContents state;
    if (bubble && density > parts.value().molarMass / (kGasConstant * kelvin) * bubble->kilopascal) {
        pressure = std::max(pressure, bubble->kilopascal);
        state.remarks.emplace_back("Near the critical temperature: liquid may still be there");
    }
    alone(state, Filling::noLiquid, pressure, mass);
    state.pressureUncertaintyPercent = kSinglePhaseUncertainty;
    state.remarks.emplace_back("No liquid: the pressure follows from mass and volume");
    return state;
}

Result<std::optional<Temperature>> liquidFullAt(const Catalogue& catalogue, const Contents& contents,
                                                Mass mass, Volume volume, bool safeSide) {
    if (mass.milligrams() <= 0 || !(volume.litres() > 0)) {
        return Error{"the mass and the volume must be above zero", "give the net weight and water capacity"};
    }
    const auto parts = partsOf(catalogue, contents);
    if (!parts) {
        return parts.error();
    }
    const LiquidModel model(parts.value(), parts.value().moles);
    const bool pure = parts.value().count == 1;
    const Substance& first = *parts.value().substances[0];
    const auto densityAt = [&](double kelvin) {
        const double nominal = pure ? first.liquidDensity.at(kelvin) : model.density(kelvin);
        return safeSide ? nominal * (1 - densityUncertaintyPercent(parts.value(), kelvin) / 100) : nominal;
    };
    double low = kLowestSaturation.kelvin();
    for (std::size_t part = 0; part < parts.value().count; ++part) {
        low = std::max(low, parts.value().substances[part]->lowestKelvin);
    }
    double high = std::min(kHighestSaturation.kelvin(), pure ? first.criticalKelvin : model.highestKelvin());
    const double density = mass.kilograms() / volume.cubicMetres();
    if (high <= low || densityAt(high) > density) {
        return std::optional<Temperature>();
    }
    if (densityAt(low) <= density) {
        return std::optional(Temperature::fromKelvin(low));
    }
    while (high - low > 1e-6) {
        const double middle = (low + high) / 2;
        (densityAt(middle) > density ? low : high) = middle;
    }
    return std::optional(Temperature::fromKelvin(low));
}

Result<Temperature> bubbleTemperature(const Catalogue& catalogue, const Contents& contents,
                                      AbsolutePressure pressure) {
    return temperatureOf(catalogue, contents, pressure,
                         [](const Saturation& saturation) { return saturation.bubble; });
}

Result<Temperature> dewTemperature(const Catalogue& catalogue, const Contents& contents,
                                   AbsolutePressure pressure) {
    return temperatureOf(catalogue, contents, pressure,
                         [](const Saturation& saturation) { return saturation.dew; });
}

} // namespace tarebook
