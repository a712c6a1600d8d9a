#pragma once

#include "core/rules/identity_check.h"

namespace tarebook {

/// Of the candidates those of which a share in the declared contents brings the bubble pressure to the
/// measured one, by a share between 1 and 95 % by mass; the smallest share first, at most kMostOthers. Shares
/// are found between neighbouring points of a coarse row, straight from one to the next: within a point of
/// per cent where the pressure is smooth.
[[nodiscard]] std::vector<FittingPair> fittingPairs(const Catalogue& catalogue, const Contents& declared,
                                                    const std::vector<std::string>& candidates,
                                                    Temperature temperature, AbsolutePressure measured);

} // namespace tarebook
