#pragma once

#include <optional>
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

/// What one of them has out.
struct TechniciansVan {
    std::string person;
    VanLoad van;
};
/// Of everybody with whom a cylinder is out, by name.
[[nodiscard]] Result<std::vector<TechniciansVan>> vansOut(Shop& shop);

/// The total of a van with its working, limit and margin; nothing where nothing regulated is aboard.
[[nodiscard]] std::optional<Finding> totalOf(const VanLoad& van);
/// The same of what the technician has out and what is to go along, subject `person:NAME`, to be shown while
/// the load is within its limits; nothing where nobody is named or the rulebook has no such rules.
[[nodiscard]] std::optional<Finding> vanNote(Shop& shop, const std::string& person,
                                             const std::vector<std::string>& more);

} // namespace tarebook
