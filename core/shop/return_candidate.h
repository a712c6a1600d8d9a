#pragma once

#include <string>

#include "core/shop/returns.h"

namespace tarebook {

/// Used gas is among what is inside: what a reclaimer is for.
[[nodiscard]] bool holdsUsedGas(const Holding& content);
/// Whether the cylinder may go on a day, or why not: whereabouts, the law of transport, the papers. `batch`:
/// a batch in which it may stand.
[[nodiscard]] ReturnCandidate returnCandidateOf(const Shop& shop, const CylinderState& state,
                                                const std::string& batch, Date on);

} // namespace tarebook
