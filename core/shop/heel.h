#pragma once

#include <optional>

#include "core/shop/card.h"

namespace tarebook {

/// What is asked before an emptied cylinder made for one filling is scrapped: a note, rule `release.heel`,
/// from the row `disposable-heel` or `disposable` of the rulebook of that day for what it was kept for, or
/// for any refrigerant where its register does not say. Nothing for other cylinders, one that is evacuated or
/// still holds something, or where the rulebook asks nothing.
[[nodiscard]] std::optional<Finding> heelFinding(const Shop& shop, const CylinderState& state, Date on);

} // namespace tarebook
