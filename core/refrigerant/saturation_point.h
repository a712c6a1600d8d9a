#pragma once

#include <optional>

#include "core/refrigerant/parts.h"

namespace tarebook {

enum class Side { bubble, dew };

/// Where a mixture begins to boil or to condense.
struct SaturationPoint {
    double kilopascal = 0;
    Numbers logRatio;                 // ln(y/x) of each substance
    double liquidCompressibility = 0; // of the model; its vapour is good, its liquid is not used
    double vapourCompressibility = 0;
};

/// Newton on ln(y/x) and ln p with the derivatives of Peng-Robinson, from Raoult's law; where that does not
/// converge, step by step from colder. Empty when there is no point: above the mixture's critical temperature
/// or too near it.
[[nodiscard]] std::optional<SaturationPoint> saturationPoint(const Parts& parts, double kelvin, Side side);

} // namespace tarebook
