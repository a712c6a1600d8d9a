#pragma once

#include "core/shop/shop.h"

namespace tarebook {

/// The shop's rulebook as it held on a day, for verdicts about the past; that of today without reading it
/// again. Error: a table that cannot be read.
[[nodiscard]] Result<Rulebook> rulebookOn(const Shop& shop, Date on);

} // namespace tarebook
