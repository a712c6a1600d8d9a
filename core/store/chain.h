#pragma once

#include <functional>
#include <string>
#include <vector>

#include "core/store/journal_table.h"

namespace tarebook {

/// What following the chain found.
struct ChainVerdict {
    Head head;                         // the last entry that was read
    std::vector<std::string> problems; // at most 40; empty: the chain is whole
    bool stopped = false;              // `progress` said so
};

/// Follows the chain of digests from the first entry to the last over the rows as they stand in the file,
/// byte by byte, without asking what they say. `progress` (done, of `last`) may return false to stop. Throws
/// SqlFailure.
[[nodiscard]] ChainVerdict followChain(Database& database, Sequence last,
                                       const std::function<bool(std::int64_t, std::int64_t)>& progress);

} // namespace tarebook
