#pragma once

#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/quantity/pressure.h"
#include "core/quantity/temperature.h"
#include "core/quantity/volume.h"
#include "core/refrigerant/catalogue.h"

namespace tarebook {

/// The model answers from -40 to 65 degC.
inline constexpr Temperature kLowestSaturation = Temperature::fromCelsius(-40);
inline constexpr Temperature kHighestSaturation = Temperature::fromCelsius(65);

/// Saturated state of contents at a temperature. The densities are those of the liquid at its bubble point
/// and of the vapour at its dew point. The uncertainties hold for at least 95 % of the rows of the reference
/// (docs/accuracy.md).
struct Saturation {
    AbsolutePressure bubble;
    AbsolutePressure dew;
    Density liquid;
    Density vapour;
    double bubbleUncertaintyPercent = 0;
    double dewUncertaintyPercent = 0;
    double densityUncertaintyPercent = 0; // of the liquid; three times as much for the vapour
    std::vector<std::string> remarks;     // what the model does not know of these contents; sentences
};

/// A pure substance from its ancillary equations; a mixture from Peng-Robinson with a(T) of each component
/// solved so that its own saturation pressure is met, and the liquid density by corresponding states;
/// constants and proof in resources/refrigerants. Error: outside the range, above the critical temperature
/// (or within 3 % of a mixture's pseudo-critical one: no usable liquid), more than a trace of a gas far above
/// its own critical temperature (nitrogen, oxygen, argon, methane), or an iteration that does not converge.
[[nodiscard]] Result<Saturation> saturationAt(const Catalogue& catalogue, const Contents& contents,
                                              Temperature temperature);

/// For decisions on safety: the highest pressure and the lowest liquid density that the uncertainty allows.
[[nodiscard]] AbsolutePressure safeBubble(const Saturation& saturation);
[[nodiscard]] Density safeLiquid(const Saturation& saturation);

} // namespace tarebook
