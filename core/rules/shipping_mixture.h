#pragma once

#include <string>
#include <vector>

#include "core/refrigerant/catalogue.h"

namespace tarebook {

/// Whether `mixture` is a sum, with weights of zero or more, of the given compositions, within
/// 2 % of each share (0.2 % by mass for the small ones).
/// Found by non-negative least squares, one coordinate at a time; a few compositions, a few components.
[[nodiscard]] bool isSumOf(const Contents& mixture, const std::vector<Contents>& compositions);

/// Largest difference of a share between two compositions; 1 where one has a part that the other lacks.
[[nodiscard]] double compositionDistance(const Contents& one, const Contents& other);

/// Without the parts below the share, normalised again.
[[nodiscard]] Contents withoutTraces(const Contents& contents, double share);

} // namespace tarebook
