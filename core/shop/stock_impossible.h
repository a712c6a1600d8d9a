#pragma once

#include <optional>
#include <string>

#include "core/shop/stocktake.h"

namespace tarebook {

/// Why the cylinder cannot weigh so much, whatever is inside (core/shop/possible_mass.h); nothing when it
/// can, or is not on the register.
[[nodiscard]] std::optional<Error> impossibleWeight(Shop& shop, const std::string& serial, Mass gross);

/// Puts the causes of a line right whose own weighing is what went wrong: of a weight that cannot be, only
/// those stay that do not take it for this cylinder's, and one says why; nothing is proposed for one that was
/// read in the other unit but to read the scale again. True when the weight can be.
bool heedThisWeighing(Shop& shop, StockLine& line);

} // namespace tarebook
