#include "core/refrigerant/uncertainty.h"

#include <algorithm>

#include "core/refrigerant/designation.h"
#include "core/refrigerant/liquid_density.h"

namespace tarebook {

namespace {

constexpr double kFittedPressure = 1.2;
constexpr double kEstimatedPressure = 5;
constexpr double kCarbonDioxidePressure = 6;
constexpr double kFittedDensity = 1;
constexpr double kEstimatedDensity = 3;
constexpr double kOddVolumeDensity = 4; // resources/refrigerants/README.md, Binary pairs
constexpr double kPureDensity = 0.2;
constexpr double kNearCriticalDensity = 1.2;
constexpr double kNearCritical = 0.98; // of the critical temperature
// Of 124 rows of the blend reference between 0.93 and 0.955 four are off by more than 1 %, all with R-744 or
// R-115, whose pairs say so themselves; of 31 rows up to 0.97 two.
constexpr double kNearMixtureCritical = 0.955;
constexpr double kTrace = 0.002; // mole shares whose product is smaller leave the answer as it is

} // namespace

Uncertainty uncertaintyOf(const Parts& parts, double reducedKelvin) {
    Uncertainty uncertainty{kFittedPressure, kFittedPressure, kFittedDensity, {}};
    if (reducedKelvin > kNearMixtureCritical) {
        uncertainty.remarks.emplace_back("Near the critical temperature, where small errors grow");
        uncertainty.densityPercent = kEstimatedDensity;
    }
    for (std::size_t row = 0; row < parts.count; ++row) {
        for (std::size_t column = row + 1; column < parts.count; ++column) {
            const Pair& pair = *parts.pairs[row * parts.count + column];
            if (parts.moles[row] * parts.moles[column] < kTrace) {
                continue;
            }
            uncertainty.bubblePercent = std::max(uncertainty.bubblePercent, pair.pressureErrorPercent);
            if (!pair.fitted) {
                uncertainty.bubblePercent = std::max(uncertainty.bubblePercent, kEstimatedPressure);
                uncertainty.densityPercent = std::max(uncertainty.densityPercent, kEstimatedDensity);
                uncertainty.remarks.push_back(
                    displayedDesignation(parts.substances[row]->designation) + " with " +
                    displayedDesignation(parts.substances[column]->designation) +
                    ": no measurements behind this pair, its behaviour is estimated");
            }
        }
        if (parts.substances[row]->designation == "R13I1" && parts.moles[row] > kTrace) {
            uncertainty.densityPercent = std::max(uncertainty.densityPercent, kOddVolumeDensity);
            uncertainty.remarks.emplace_back("The reference itself is unsure of densities with R-13I1");
        }
        if (parts.substances[row]->designation == "R744" && parts.moles[row] > kTrace) {
            uncertainty.bubblePercent = std::max(uncertainty.bubblePercent, kCarbonDioxidePressure);
            uncertainty.densityPercent = std::max(uncertainty.densityPercent, kOddVolumeDensity);
            uncertainty.remarks.emplace_back("Mixtures with R-744 are known less well");
        }
    }
    uncertainty.dewPercent = uncertainty.bubblePercent;
    return uncertainty;
}

double densityUncertaintyPercent(const Parts& parts, double kelvin) {
    if (parts.count == 1) {
        return kelvin > kNearCritical * parts.substances[0]->criticalKelvin ? kNearCriticalDensity
                                                                            : kPureDensity;
    }
    return uncertaintyOf(parts, kelvin / LiquidModel(parts, parts.moles).pseudoCriticalKelvin())
        .densityPercent;
}

} // namespace tarebook
