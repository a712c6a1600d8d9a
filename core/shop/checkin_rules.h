#pragma once

#include <vector>

#include "core/ledger/facts.h"
#include "core/shop/counter.h"

namespace tarebook {

/// The cylinder as it would stand after the movement, for a look ahead.
[[nodiscard]] CylinderState afterMovement(Shop& shop, CylinderState state, const Movement& movement,
                                          Instant occurred);

/// What the transfer itself breaks, beside the state that it leaves: gas released, used gas into another
/// owner's equipment, the machine of a recovery, and how far the system was evacuated.
void judgeTransfer(Shop& shop, const CheckIn& facts, const CylinderState& state, const Movement& movement,
                   std::vector<Finding>& findings);

} // namespace tarebook
