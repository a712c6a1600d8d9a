#pragma once

#include <vector>

#include "core/ledger/facts.h"
#include "core/shop/counter.h"

namespace tarebook {

/// The cylinder that is checked in, and those on the other side of the movement, as they stand now.
[[nodiscard]] std::vector<CylinderState> namedCylinders(Shop& shop, const CylinderState& state,
                                                        const std::optional<Movement>& movement);

/// The cylinder as it would stand after the movement, for a look ahead.
[[nodiscard]] CylinderState afterMovement(Shop& shop, CylinderState state, const Movement& movement,
                                          Instant occurred);

/// What the transfer itself breaks, beside the state that it leaves: gas released, used gas into another
/// owner's equipment, gas that a system is not for, the machine of a recovery, how far the system was
/// evacuated, and a leak rate that is over its limit with this charge.
void judgeTransfer(Shop& shop, const CheckIn& facts, const CylinderState& state, const Movement& movement,
                   std::vector<Finding>& findings);

/// Where the cylinder that it leaves does not hold so much. Once it is recorded the books say so themselves.
[[nodiscard]] std::optional<Finding> lackingFor(Shop& shop, const CylinderState& state,
                                                const Movement& movement);

} // namespace tarebook
