#include "core/refrigerant/non_condensables.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/refrigerant/parts.h"
#include "core/refrigerant/saturation.h"

namespace tarebook {

namespace {

constexpr double kMostShare = 0.9;

/// What an ideal gas of as many moles as the vapour has would press, kPa.
Result<double> vapourAsIdeal(const Catalogue& catalogue, const Contents& contents,
                             const Saturation& saturation, Temperature temperature) {
    const auto parts = partsOf(catalogue, contents);
    if (!parts) {
        return parts.error();
    }
    return saturation.vapour.kilogramsPerCubicMetre() / parts.value().molarMass * kGasConstant *
           temperature.kelvin();
}

double shareOf(double air, double vapour) {
    return std::max(air, 0.0) / (std::max(air, 0.0) + vapour);
}

} // namespace

Result<AirEstimate> airInGasSpace(const Catalogue& catalogue, const Contents& contents,
                                  Temperature temperature, AbsolutePressure measured) {
    const auto saturation = saturationAt(catalogue, contents, temperature);
    if (!saturation) {
        return saturation.error();
    }
    const auto vapour = vapourAsIdeal(catalogue, contents, saturation.value(), temperature);
    if (!vapour) {
        return vapour.error();
    }
    const double bubble = saturation.value().bubble.kilopascal();
    const double margin = bubble * saturation.value().bubbleUncertaintyPercent / 100;
    const double excess = measured.kilopascal() - bubble;
    if (!(excess >= -margin)) {
        return Error{fmt::format("{:.0f} kPa is below the {:.0f} kPa of these contents at {:.1f} degC",
                                 measured.kilopascal(), bubble, temperature.celsius()),
                     "look whether the cylinder was at rest, holds liquid, and holds what its tag says"};
    }
    return AirEstimate{AbsolutePressure::fromKilopascal(std::max(excess, 0.0)),
                       shareOf(excess, vapour.value()), shareOf(excess - margin, vapour.value()),
                       shareOf(excess + margin, vapour.value())};
}

Result<AbsolutePressure> pressureWithAir(const Catalogue& catalogue, const Contents& contents,
                                         Temperature temperature, double volumeShare) {
    if (!(volumeShare >= 0 && volumeShare <= kMostShare)) {
        return Error{fmt::format("{} is no share of air in the gas space", volumeShare),
                     fmt::format("give a share by volume from 0 to {}", kMostShare)};
    }
    const auto saturation = saturationAt(catalogue, contents, temperature);
    if (!saturation) {
        return saturation.error();
    }
    const auto vapour = vapourAsIdeal(catalogue, contents, saturation.value(), temperature);
    if (!vapour) {
        return vapour.error();
    }
    return AbsolutePressure::fromKilopascal(saturation.value().bubble.kilopascal() +
                                            volumeShare / (1 - volumeShare) * vapour.value());
}

AbsolutePressure airPressureAt(AbsolutePressure airPressure, Temperature from, Temperature to,
                               Volume gasSpaceBefore, Volume gasSpaceAfter) {
    return AbsolutePressure::fromKilopascal(airPressure.kilopascal() * to.kelvin() / from.kelvin() *
                                            gasSpaceBefore.litres() / gasSpaceAfter.litres());
}

} // namespace tarebook
