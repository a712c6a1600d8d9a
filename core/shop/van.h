#pragma once

#include <string>
#include <vector>

#include "core/rules/vehicle_load.h"
#include "core/shop/card.h"

namespace tarebook {

/// What is aboard a technician's van, and what the rules for small loads say of it.
struct VanLoad {
    std::vector<LoadedCylinder> cylinders; // by serial; evacuated empties are left out: nothing is in them
    VehicleLoad load;
};

/// The cylinders that are out with the technician, and `more` that are to go along, judged by the rulebook of
/// the shop (core/rules/vehicle_load.h): weights by the books, an empty that was not evacuated as residue of
/// what was last in it. Finding `load.description` where the contents cannot be described; such a cylinder
/// counts as flammable. Error: a serial that is not there, or a rulebook without such rules.
[[nodiscard]] Result<VanLoad> vanLoad(Shop& shop, const std::string& person,
                                      const std::vector<std::string>& more = {});

} // namespace tarebook
