#pragma once

#include <vector>

#include "core/ledger/cylinder_state.h"
#include "core/rules/contents_inside.h"

namespace tarebook {

/// A cylinder of the books as the rules of contents see it. `lastHeld`: of an empty one, what the newest
/// movement says was in it.
[[nodiscard]] CylinderPast pastOf(const CylinderState& state, std::string lastHeld = {});
/// What is inside by refrigerant, owners and states put together.
[[nodiscard]] std::vector<GasInside> gasesIn(const Holding& content);

} // namespace tarebook
