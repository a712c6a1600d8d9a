#pragma once

#include <optional>
#include <vector>

#include "core/shop/register.h"

namespace tarebook {

/// What went into a system, held against what the system is for: rule `charge.contents`, a danger. Another
/// refrigerant, a mixture by the rulebook's share, or gas that nobody knows; where it burns and the system's
/// own does not, that comes first. Nothing when the gas is that of the system, or the register does not say
/// what the system is for.
[[nodiscard]] std::optional<Finding> chargeFinding(const Shop& shop, const System& system,
                                                   const Holding& moved);

/// A recovery entered as another refrigerant than the system is for: rule `recovery.contents`, a caution.
[[nodiscard]] std::optional<Finding> recoveryFinding(const Shop& shop, const System& system,
                                                     const std::string& refrigerant);

/// Charges that did not fit their system and after which not as much was recovered from it: a finding a
/// system, subject `system:SITE/TAG`. A charge that fitted what the system was for on its day, or that fits
/// what it is for now, is none. Of each system the newest 256 movements are looked at.
[[nodiscard]] Result<std::vector<Finding>> openCharges(Shop& shop);

} // namespace tarebook
