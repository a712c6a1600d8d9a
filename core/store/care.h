#pragma once

#include <functional>

#include "core/store/database.h"
#include "core/store/store.h"

namespace tarebook {

/// What Store::verify does: SQLite's own check, the chain from the first entry to the head, and, where that
/// is whole, every view against one made anew in memory, who signs in and the attached files; or the chain
/// alone. Of a journal with pages that cannot be read: which entries are lost, and whether the others fit.
/// Error: `progress` stopped it. Throws SqlFailure for other faults than damage.
[[nodiscard]] Result<Verification>
verifyDatabase(Database& database, const std::function<bool(std::int64_t, std::int64_t)>& progress,
               VerifyDepth depth);

} // namespace tarebook
