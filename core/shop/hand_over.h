#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/shop/counter.h"

namespace tarebook {

/// Cylinders that go from technician to technician without coming back to the shop.
struct HandOver {
    std::vector<std::string> serials;
    std::string person; // who takes them
    std::string job;    // may be empty
    std::optional<Instant> occurred = {};
};

/// Refuses what cannot be: nobody or nothing named or on file, a cylinder that is in the shop, or that they
/// have already. Cautions about what they then have aboard.
[[nodiscard]] Review review(Shop& shop, const HandOver& plan);
/// All of them or none.
[[nodiscard]] Recorded handOver(Shop& shop, const HandOver& plan);

} // namespace tarebook
