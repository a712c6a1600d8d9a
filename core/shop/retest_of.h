#pragma once

#include "core/rules/retest.h"
#include "core/shop/card.h"

namespace tarebook {

/// The retest rules asked about a cylinder of the shop on a day. What was put in last counts only while
/// something is inside.
[[nodiscard]] Result<RetestVerdict> retestOf(const Shop& shop, const CylinderState& state, Date on);

} // namespace tarebook
