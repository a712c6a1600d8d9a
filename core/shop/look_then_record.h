#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include "core/shop/shop.h"

namespace tarebook {

/// What a look at the books came to: entries to write, or why none is written.
struct Looked {
    std::vector<Draft> drafts;
    std::optional<Recorded> refusal = {};
};

/// Looks at the books and writes what came of it, so that nothing which another program writes in between is
/// overlooked: where it did, nothing is written, and the look is made again, of the books as they are then.
/// The answer is that of the last look. Not recorded, with `outrun`, where others wrote between each of
/// several looks.
/// `progress` as Shop::record.
[[nodiscard]] Recorded lookThenRecord(Shop& shop, const std::function<Looked()>& look,
                                      const std::function<bool(std::int64_t, std::int64_t)>& progress = {});

/// The refusal of a plan: the worst finding as the reason, and all of them.
[[nodiscard]] Looked refusedBy(Review reviewed);
[[nodiscard]] Looked refusedBy(Error error);

} // namespace tarebook
