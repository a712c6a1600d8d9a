#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/shop/shop.h"

namespace tarebook {

/// One number for another, as the books have it.
struct CameFor {
    std::string out;   // serial of the one that left the fleet
    std::string in;    // of the one that came for it
    std::string party; // name of who gave it; empty: not said
    Instant occurred;
    Sequence entry = 0;
    bool atCounter = false; // not with a batch that was settled
    bool empty = false;     // of one at a counter: nothing was bought in it with the same step
};

/// The exchange by which the cylinder left the fleet at a counter, as it stands; nothing where it did not.
[[nodiscard]] Result<std::optional<CameFor>> leftAtCounter(Shop& shop, const std::string& serial);

/// What came for the cylinder, and for which one it came itself, in sentences, of the entries about it up to
/// the head (0: now) that happened until the moment: `A201 came for it on 2026-09-14 from Cape Reclaim (entry
/// 48).`
[[nodiscard]] std::vector<std::string> cameForSaid(Shop& shop, const std::string& serial, Sequence head = 0,
                                                   std::optional<Instant> until = {});

} // namespace tarebook
