#pragma once

#include "core/base/result.h"
#include "core/quantity/pressure.h"
#include "core/quantity/temperature.h"
#include "core/quantity/volume.h"
#include "core/refrigerant/catalogue.h"

namespace tarebook {

/// Air, or any other gas that does not condense, in the gas space above a liquid. Dalton's law at the density
/// of the saturated vapour (gas mixed ideally, none dissolved in the liquid): a few tenths of the excess are
/// uncertain, so a verdict needs a margin.
struct AirEstimate {
    AbsolutePressure airPressure; // of the air alone
    double volumeShare = 0;       // of the gas space, by moles, 0 to 1
    double shareFrom = 0;         // with the uncertainty of the bubble pressure against it and for it;
    double shareTo = 0;           // from 0: the excess may be no air at all
};

/// Of a measured pressure above the bubble pressure, the cylinder at rest and at one temperature throughout.
/// Error: below the bubble pressure by more than its uncertainty (not these contents, not at rest, or no
/// liquid left).
[[nodiscard]] Result<AirEstimate> airInGasSpace(const Catalogue& catalogue, const Contents& contents,
                                                Temperature temperature, AbsolutePressure measured);

/// The pressure that contents with liquid have with a share of air in their gas space. Error: as
/// saturationAt, and a share outside 0 to 0.9.
[[nodiscard]] Result<AbsolutePressure> pressureWithAir(const Catalogue& catalogue, const Contents& contents,
                                                       Temperature temperature, double volumeShare);

/// The pressure of the same air at another temperature and in another gas space.
[[nodiscard]] AbsolutePressure airPressureAt(AbsolutePressure airPressure, Temperature from, Temperature to,
                                             Volume gasSpaceBefore, Volume gasSpaceAfter);

} // namespace tarebook
