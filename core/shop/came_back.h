#pragma once

#include <string>

#include "core/shop/returns.h"

namespace tarebook {

/// The batch with the cylinders marked that were checked in since it was shipped, while it is not settled:
/// those are here, whatever the reclaimer says later.
[[nodiscard]] Batch withThoseBack(Shop& shop, Batch batch);
/// `A0012 came back on 2026-11-24, before the batch was settled.`, a sentence for each; empty: none did.
[[nodiscard]] std::string cameBackText(const Shop& shop, const Batch& batch);

} // namespace tarebook
