#pragma once

#include <string>
#include <vector>

#include "core/shop/shop.h"

namespace tarebook {

/// An empty that came for a cylinder which stays with the reclaimer; its marks as a person reads them off the
/// collar.
struct Exchanged {
    std::string out; // serial of the one that stays there
    std::string serial;
    std::string specification;
    std::string waterCapacity; // as `47.7 lb`
    std::string tare;          // a bare number takes the shop's unit
    std::string manufactured;  // month and year
    std::string lastTest;      // blank: not tested since
};

/// The entries that register them, as settleBatch() records them. Each takes the owner of the one that it
/// came for. Error: a mark that cannot be read, a serial that is taken or stands twice; names both cylinders.
[[nodiscard]] Result<std::vector<Draft>> draftsOf(Shop& shop, const std::vector<Exchanged>& came);

} // namespace tarebook
