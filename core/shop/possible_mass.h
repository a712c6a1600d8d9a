#pragma once

#include <optional>
#include <vector>

#include "core/ledger/facts.h"
#include "core/shop/card.h"

namespace tarebook {

/// Why what is said of the cylinder cannot be: by one of these gross weights, or by what moved into it, out
/// of it or on to the cylinder on the other side, one of them would hold or have held more than fills its
/// water capacity with liquid (core/shop/receipt_limits.h) and the scale may be off. Nothing when it can be,
/// however overfilled. A gas that nobody knows may be the densest.
[[nodiscard]] std::optional<Error> impossibleMass(Shop& shop, const CylinderState& state,
                                                  const std::vector<std::optional<Mass>>& grosses,
                                                  const std::optional<Movement>& movement);

} // namespace tarebook
