#pragma once

namespace tarebook {

/// Constants of a pair of substances in the mixture model, from resources/refrigerants: pair-interaction.csv
/// pair-asymmetry.csv and pair-volume.csv, else pair-class-rule.csv.
struct Pair {
    double interaction = 0; // k at 313.15 K
    double interactionPerKelvin = 0;
    double asymmetry = 0;            // m: k grows by m (x1 - x2)/(x1 + x2); negative the other way round
    double densityInteraction = 0;   // l
    bool fitted = false;             // the reference has parameters fitted to data for this pair
    double pressureErrorPercent = 5; // largest deviation of the binary fit
    double excessVolume = 0;         // e: the liquid's volume grows by 2 x1 x2 e
};

} // namespace tarebook
