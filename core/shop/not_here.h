#pragma once

#include <optional>
#include <vector>

#include "core/ledger/cylinder_state.h"
#include "core/rules/finding.h"
#include "core/shop/shop.h"

namespace tarebook {

/// Of a cylinder that by the books is not in the shop: it left the fleet (`custody.left-fleet`, a danger
/// where something is inside: nobody looks for gas there), or is with a reclaimer (`custody.away`). Says
/// since when and by which entry, and what to do where gas or a weight was entered for it: `written` are the
/// entries that just did, else those that the state tells of. Nothing where it is in the fleet. Common
/// practice.
[[nodiscard]] std::optional<Finding> notHere(const Shop& shop, const CylinderState& state,
                                             std::vector<Sequence> written = {});

/// Adds that of each of these, as they stood before the movement or the weighing that names them, unless
/// the finding stands among the others already.
void addNotHere(const Shop& shop, const std::vector<CylinderState>& named, std::vector<Finding>& findings,
                const std::vector<Sequence>& written = {});

} // namespace tarebook
