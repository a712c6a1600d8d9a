#pragma once

#include <string>

#include "core/base/result.h"
#include "core/shop/shop.h"

namespace tarebook {

/// Room to spare as a person writes it: `10 %` of what is expected, to the next milligram, or a mass as `3
/// lb`, in the shop's unit where none is said; blank is none. Common practice (recovered gas can be more than
/// the nameplate says: RP-28 of the recovery practice); no law asks for it. Error: neither, below zero, or
/// more than 100 %.
[[nodiscard]] Result<Mass> readMargin(const Shop& shop, const std::string& text, Mass expected);

} // namespace tarebook
