#pragma once

#include <vector>

#include "core/shop/card.h"

namespace tarebook {

/// What an evacuation may take that nobody has to account for: two ounces of gas that a vacuum pump draws
/// (common practice, from memory), or what the scale cannot tell by the shop's setting where that is more.
[[nodiscard]] Mass evacuatedHeel(const Shop& shop);

/// What went through the books without anything that says where to or where from, of the entries up to the
/// newest that the state knows: `release.unexplained`, a refusal, of an evacuation that took more than a
/// heel; `weight.over-withdrawn`, a caution, where more went out than the books had, beyond what the scale
/// cannot tell. Open until the missing entry is made with its moment, the wrong one reversed, or the finding
/// is overruled by a later entry.
[[nodiscard]] std::vector<Finding> unexplainedOf(const Shop& shop, const CylinderState& state);

/// Number of the newest entry that overrules the rule for the cylinder; 0: none.
[[nodiscard]] Sequence overruledBy(const Shop& shop, const CylinderState& state, const char* rule);

/// What unexplainedOf() would say of what is about to be entered: an evacuation of what the state holds;
/// nothing of a heel.
[[nodiscard]] std::optional<Finding> evacuationToExplain(const Shop& shop, const CylinderState& state);
/// Taking out more than the state holds; nothing where it holds enough.
[[nodiscard]] std::optional<Finding> tooMuchTaken(const Shop& shop, const CylinderState& state, Mass mass);

} // namespace tarebook
