#pragma once

#include <functional>
#include <string>
#include <vector>

#include "core/store/database.h"
#include "core/store/store.h"

namespace tarebook {

/// Reads the journal of a file with damaged or missing pages, entry by entry past what cannot be read, and
/// calls `visit` for each that can, in their order. The newest entry is the highest number that the journal,
/// the index of its ids or a view still has; of a file that was cut off there may have been more. `progress`
/// (done, of all that are known) may return false to end it early, as `visit` may. Throws SqlFailure for
/// other faults than damage.
[[nodiscard]] LegibleJournal
readLegible(Database& database, const std::function<bool(const Entry&)>& visit,
            const std::function<bool(std::int64_t, std::int64_t)>& progress = {});

/// What verify says of a journal that cannot be read as a whole: which entries cannot, and which of those
/// that can do not fit the chain. `stopped` as told by `progress`.
struct LegibleVerdict {
    LegibleJournal journal;
    std::string head; // digest of the last entry that can be read
    std::vector<std::string> problems;
};
[[nodiscard]] LegibleVerdict followLegible(Database& database,
                                           const std::function<bool(std::int64_t, std::int64_t)>& progress);

/// SQLite says that a page, or what stands on it, is not as it wrote it.
[[nodiscard]] bool isDamage(const SqlFailure& failure);

} // namespace tarebook
