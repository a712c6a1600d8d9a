#pragma once

#include <QString>

#include <string>
#include <vector>

#include "core/shop/shop.h"

namespace tarebook {

/// What these cylinders are together as one load of the shop's own vehicle, by the rules for small loads:
/// `163.6 lb (74.2 kg) gross on the vehicle, ... allowed as materials of trade.` Empty where the rulebook has
/// no such rules, or where the load is beyond them: that is a finding of the batch.
[[nodiscard]] QString loadWords(Shop& shop, const std::vector<std::string>& serials);

} // namespace tarebook
