#pragma once

#include <string>
#include <vector>

#include "core/refrigerant/parts.h"

namespace tarebook {

/// Of the answers for a mixture, in per cent; calibrated against the reference rows (docs/accuracy.md).
struct Uncertainty {
    double bubblePercent = 0;
    double dewPercent = 0;
    double densityPercent = 0;
    std::vector<std::string> remarks;
};

/// reducedKelvin: temperature over the mixture's pseudo-critical one.
[[nodiscard]] Uncertainty uncertaintyOf(const Parts& parts, double reducedKelvin);

/// Of the liquid density alone, a pure substance's as well.
[[nodiscard]] double densityUncertaintyPercent(const Parts& parts, double kelvin);

} // namespace tarebook
