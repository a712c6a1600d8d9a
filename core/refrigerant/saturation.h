#pragma once

#include <string>

#include "core/base/result.h"
#include "core/refrigerant/catalogue.h"

namespace tarebook {

/// Saturated state of contents at a temperature. Pressures in kPa absolute, density in kg/m3, at the bubble
/// point.
struct Saturation {
    double bubbleKilopascal = 0;
    double liquidDensity = 0;
    double bubbleUncertaintyPercent = 0;
    double densityUncertaintyPercent = 0;
};

/// Saturation between -40 and 65 degC. A pure substance from its ancillary equations; a mixture from
/// Peng-Robinson (Ind. Eng. Chem. Fundam. 15 (1976) 59) with a(T) of each component solved so that its own
/// saturation pressure is met, and the liquid density by corresponding states; constants and proof in
/// resources/refrigerants. Error: outside the range, above the critical temperature (or within 3 % of a
/// mixture's pseudo-critical one: no usable liquid), or an iteration that does not converge.
[[nodiscard]] Result<Saturation> saturationAt(const Catalogue& catalogue, const Contents& contents,
                                              double celsius);

} // namespace tarebook
