#pragma once

#include <optional>
#include <vector>

#include "core/shop/system_then.h"

namespace tarebook {

/// What went into a system, held against what the system is for: rule `charge.contents`, a danger. Another
/// refrigerant, a mixture by the rulebook's share, or gas that nobody knows; where it burns and the system's
/// own does not, that comes first. Nothing when the gas is that of the system, or the register does not say
/// what the system is for.
[[nodiscard]] std::optional<Finding> chargeFinding(const Shop& shop, const System& system,
                                                   const Holding& moved);

/// Of the movements of a system, newest first, the charges that did not fit it and after which not as much
/// was recovered from it. A charge that fitted what the system was for on its day, or that fits what it is
/// for now, is none.
[[nodiscard]] std::optional<Finding> openCharge(Shop& shop, SystemThen& its, const std::vector<Leg>& legs);

} // namespace tarebook
