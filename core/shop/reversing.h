#pragma once

#include <optional>
#include <vector>

#include "core/shop/shop.h"

namespace tarebook {

/// Why these drafts may not reverse what they name: later entries rest on it that stand and are not reversed
/// with it. On the registration of a cylinder rests every other entry that names the cylinder; on a step of a
/// batch its later steps (prepared, shipped, received, settled); on what a cylinder gave up as it was
/// exchanged at a counter, the entry by which it left the fleet; on a hand-out the hand-overs that follow it
/// until the cylinder is back. Such entries are reversed first, the newest of them before the others.
[[nodiscard]] std::optional<Error> restsOnReversed(Shop& shop, const std::vector<Draft>& drafts);

} // namespace tarebook
