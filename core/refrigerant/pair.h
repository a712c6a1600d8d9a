#pragma once

namespace tarebook {

/// Constants of a pair of substances in the mixture model of resources/refrigerants/pair-interaction.csv.
struct Pair {
    double interaction = 0; // k at 313.15 K
    double interactionPerKelvin = 0;
    double densityInteraction = 0;   // l
    bool fitted = false;             // the reference has parameters fitted to data for this pair
    double pressureErrorPercent = 5; // largest deviation of the binary fit
};

} // namespace tarebook
