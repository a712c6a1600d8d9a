#pragma once

#include "core/store/shop_file.h"

namespace tarebook {

/// What Store::append does; the drafts are written in one transaction, and a commit that failed is settled
/// by opening the file again and looking for their ids.
[[nodiscard]] AppendAnswer appendDrafts(ShopFile& file, const Clock& clock, const Reviewer& reviewer,
                                        const std::vector<Draft>& drafts,
                                        const std::function<bool(std::int64_t, std::int64_t)>& progress);

} // namespace tarebook
