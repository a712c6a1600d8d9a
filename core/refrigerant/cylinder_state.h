#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/quantity/mass.h"
#include "core/quantity/pressure.h"
#include "core/quantity/temperature.h"
#include "core/quantity/volume.h"
#include "core/refrigerant/catalogue.h"

namespace tarebook {

/// How contents lie in a cylinder.
enum class Filling {
    liquidAndVapour,
    vapourOnly,
    liquidFull, // no vapour space left: the true pressure is far above the one told, the cylinder can burst
    noLiquid,   // above the critical temperature: the pressure follows from mass and volume
};

/// A mass of contents at rest in a volume.
struct RestingContents {
    Filling filling = Filling::liquidAndVapour;
    AbsolutePressure pressure; // when liquidFull the least it can be, the bubble pressure
    Mass liquid;               // liquid and vapour sum to the mass, to the milligram
    Mass vapour;
    double liquidShare = 0; // of the volume, 0 to 1; the level in an upright straight cylinder
    double pressureUncertaintyPercent = 0;
    std::vector<std::string> remarks;
};

/// Liquid and vapour of a mixture have the compositions of their balance (Rachford and Rice with
/// Peng-Robinson), the liquid the density of corresponding states. Above the critical temperature and in
/// vapour alone the pressure is that of Peng-Robinson at the volume; within the band near the critical
/// temperature where no liquid density is usable, at least the bubble pressure where there is one. Error:
/// mass or volume not above zero, outside the temperature range, substances without data.
[[nodiscard]] Result<RestingContents> cylinderStateAt(const Catalogue& catalogue, const Contents& contents,
                                                      Mass mass, Volume volume, Temperature temperature);

/// The lowest temperature at which the liquid takes up the whole volume; nullopt when it does not up to the
/// end of the range of the model (65 degC, or the end of usable liquid). The density is the nominal one, or
/// lowered by its uncertainty with `safeSide`, as decisions on safety need it.
[[nodiscard]] Result<std::optional<Temperature>>
liquidFullAt(const Catalogue& catalogue, const Contents& contents, Mass mass, Volume volume, bool safeSide);

/// Saturation temperature of a pressure: of the liquid (bubble) and of the vapour (dew). Error: the pressure
/// is not met between -40 degC and the end of the model's range, which is named.
[[nodiscard]] Result<Temperature> bubbleTemperature(const Catalogue& catalogue, const Contents& contents,
                                                    AbsolutePressure pressure);
[[nodiscard]] Result<Temperature> dewTemperature(const Catalogue& catalogue, const Contents& contents,
                                                 AbsolutePressure pressure);

} // namespace tarebook
