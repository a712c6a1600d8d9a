#pragma once

#include <map>
#include <string>
#include <vector>

#include "core/shop/counter.h"

namespace tarebook {

/// The gross at which a cylinder has given its part of what is to be charged: all that is inside, or what is
/// `missing` where that is less; takes its part off `missing`.
[[nodiscard]] Mass grossWhenCharged(Mass grossNow, Mass inside, Mass& missing);

/// The same of several cylinders that are charged from one after the other, by serial: Candidate::grossToStop
/// of each.
void setChargeStops(std::vector<Candidate>& cylinders, Mass expected);

/// Of cylinders that go out to be charged from, by serial, as the books have them now. A serial that is not
/// known is left out.
[[nodiscard]] std::map<std::string, Mass> chargeStopsOf(const Shop& shop, std::vector<std::string> serials,
                                                        Mass expected);

} // namespace tarebook
