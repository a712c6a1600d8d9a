#pragma once

#include <string>
#include <vector>

#include "core/shop/counter.h"

namespace tarebook {

/// As review(), of gas of `owner`; empty: of the system's customer, or of the shop where no system is named.
[[nodiscard]] Review reviewHandOut(Shop& shop, const CheckOut& plan, const std::string& owner);

/// The entries that a hand-out is: first that of its job, where it is new. Asks no rule.
[[nodiscard]] std::vector<Draft> handOutDrafts(const Shop& shop, const CheckOut& plan);

} // namespace tarebook
