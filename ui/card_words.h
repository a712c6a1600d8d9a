#pragma once

#include <QString>

#include "core/shop/card.h"

namespace tarebook {

/// Where the cylinder is, what may be done with it, and below it what it brings in exchange by the terms of
/// reclaimers.
[[nodiscard]] QString placeWords(const Card& card);

} // namespace tarebook
