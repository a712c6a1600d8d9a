#pragma once

#include <optional>

#include "core/shop/register.h"

namespace tarebook {

/// A tare that no cylinder of these marks has (core/shop/usual_tare.h), in the shop's units.
[[nodiscard]] std::optional<Error> impossibleTareOf(const Shop& shop, const Nameplate& plate, Mass tare);
/// What a new cylinder is said to hold does not go in (core/shop/possible_mass.h).
[[nodiscard]] std::optional<Error> impossibleContents(Shop& shop, const NewCylinder& cylinder);

} // namespace tarebook
