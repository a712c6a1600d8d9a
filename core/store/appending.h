#pragma once

#include "core/store/store_inside.h"

namespace tarebook {

/// What Store::append does; the drafts are written in one transaction, and a commit that failed is settled
/// by opening the file again and looking for their ids. `verifier` goes with an `operator_set` that sets a
/// passphrase. `looked` as Store::append.
[[nodiscard]] AppendAnswer appendDrafts(Store::Inside& inside, const std::vector<Draft>& drafts,
                                        const std::function<bool(std::int64_t, std::int64_t)>& progress,
                                        const std::string& verifier = {},
                                        const std::optional<LookedAt>& looked = {});

} // namespace tarebook
