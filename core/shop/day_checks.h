#pragma once

#include <optional>
#include <vector>

#include "core/ledger/facts.h"
#include "core/shop/card.h"

namespace tarebook {

/// Why nothing can have happened to the cylinder then: it was not made yet in that month.
[[nodiscard]] std::optional<Error> impossibleDay(const Shop& shop, const CylinderState& state,
                                                 std::optional<Instant> occurred);

/// Of movements whose day does not fit: `day.before-registration`, the cylinder was not on the register yet;
/// `opening.late`, gas that was found when the books began, though the cylinder had moved other gas before
/// or was evacuated then: it becomes the shop's own that way. Cautions, judgement; open until the entry is
/// reversed or a later entry overrules them.
[[nodiscard]] std::vector<Finding> oddDaysOf(const Shop& shop, const CylinderState& state);
/// The same of a movement that is about to be entered.
[[nodiscard]] std::vector<Finding> oddDayOf(const Shop& shop, const CylinderState& state,
                                            const Movement& movement, Instant occurred);

} // namespace tarebook
