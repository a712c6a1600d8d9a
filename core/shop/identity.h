#pragma once

#include "core/ledger/cylinder_state.h"
#include "core/rules/identity_check.h"
#include "core/shop/shop.h"

namespace tarebook {

/// The pressure of a cylinder on file against what the books say it holds. What the reading leaves open comes
/// from the shop: its instruments and allowance from the settings, whether liquid is left from mass and
/// volume, and a rest that is too short from the last filling. Error: empty or unknown contents, and as
/// checkIdentity().
[[nodiscard]] Result<IdentityCheck> identityOf(const Shop& shop, const CylinderState& state,
                                               PressureReading reading);

/// The finding of identityOf(); where there is no answer, a note that says why.
[[nodiscard]] Finding identityFinding(const Shop& shop, const CylinderState& state,
                                      const PressureReading& reading);

/// Errors of instruments and air allowance that the shop has set, where the reading has none of its own.
void takeSettings(const OwnLimits& own, PressureReading& reading);

} // namespace tarebook
