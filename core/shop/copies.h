#pragma once

#include <string>
#include <vector>

#include "core/shop/shop.h"
#include "core/store/kept_copies.h"

namespace tarebook {

/// A copy of the shop file, and how it stands to the books of today.
struct CopyRow {
    KeptCopy copy;
    CopyStanding standing;
    /// `lacks the last 3 entries`, `nothing would be lost`, or why it is no use; in words.
    std::string words;
};
/// Those that are kept, newest first. `shop` null: the shop file cannot be opened, and what would be lost is
/// not known.
[[nodiscard]] std::vector<CopyRow> copyRows(const std::string& shopPath, Shop* shop, const Clock& clock);
/// The same of any file.
[[nodiscard]] CopyRow copyRow(const KeptCopy& copy, Shop* shop, const Clock& clock);

/// What the books say that the copy does not, newest first, at most so many: `entry 412: Weighed A101 ...`.
[[nodiscard]] std::vector<std::string> lostSentences(Shop& shop, const CopyStanding& standing, int most);

} // namespace tarebook
