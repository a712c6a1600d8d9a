#pragma once

#include <functional>

#include "core/store/database.h"
#include "core/store/store.h"

namespace tarebook {

/// What Store::verify does: SQLite's own check, the chain from the first entry to the head, and every view
/// against one made anew in memory; or the chain alone. Throws SqlFailure only where nothing can be read.
[[nodiscard]] Result<Verification>
verifyDatabase(Database& database, const std::function<bool(std::int64_t, std::int64_t)>& progress,
               VerifyDepth depth);

} // namespace tarebook
