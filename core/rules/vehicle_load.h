#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/quantity/mass.h"
#include "core/rules/rulebook.h"

namespace tarebook {

/// A cylinder on a vehicle, as the rules for small loads look at it.
struct LoadedCylinder {
    std::string name;        // serial, or what stands in the list
    std::string description; // shipping description; empty: not regulated
    std::string division;    // `2.1`, `2.2`, `2.3`; empty: not regulated as a dangerous good
    Mass gross;
    Mass net;
    bool residue = false; // emptied, not cleaned
    std::string problem;  // why it may not be offered for transport at all; empty when it may
    std::string remedy;
};

/// A vehicle judged.
struct VehicleLoad {
    Mass gross;                            // of all that is regulated
    double points = 0;                     // where the rulebook counts them
    std::optional<Mass> limit = {};        // of `gross`, where the rulebook has one for what is aboard
    std::optional<double> mostPoints = {}; // of `points`, likewise
    bool relieved = false; // within the small-load relief; false too where the rulebook has none
    std::vector<Finding> findings;
};

/// Whether a load travels under the relief for the trades: gross limits by cylinder and vehicle
/// (vehicle-limits.csv: 49 CFR 173.6; Canada 1.15) or points by net mass (vehicle-points.csv: ADR 1.1.3.6),
/// then what follows where it does not, placards included. Rules `load.relief`, `load.cylinder`,
/// `load.vehicle`, `load.division`, `load.unlawful` (a refusal), `load.flammable`, `load.placard`,
/// `load.secured`. Error: the rulebook has neither table, or a row cannot be read.
[[nodiscard]] Result<VehicleLoad> vehicleLoad(const Rulebook& book,
                                              const std::vector<LoadedCylinder>& cylinders);

} // namespace tarebook
