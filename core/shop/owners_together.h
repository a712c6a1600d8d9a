#pragma once

#include <optional>

#include "core/shop/card.h"

namespace tarebook {

/// Used gas together with new or reclaimed gas, or with another owner's used gas: rule `contents.owners`, a
/// caution that stays until the cylinder is empty. Used in part is used: from then on all of it goes back
/// only into that owner's equipment, and of two owners into nobody's, unless it is reclaimed (the rows
/// `reuse` and `reuse-in-part` of the rulebook's duties). Nothing in a cylinder that is kept for mixed gas,
/// or in a mixture, whose finding names the owners: that goes to a reclaimer anyway.
[[nodiscard]] std::optional<Finding> ownersTogether(const Shop& shop, const CylinderState& state);

} // namespace tarebook
