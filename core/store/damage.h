#pragma once

#include <functional>
#include <string>
#include <vector>

#include "core/store/database.h"

namespace tarebook {

/// Where a file with pages that cannot be read is damaged, as far as it can be told: each table is read from
/// its beginning and from its end, up to where SQLite finds a page damaged; what lies between is named by
/// entries of the journal or by keys of the table. Where a table can be read and one of its indexes cannot,
/// that is said. `goesOn` may return false to end it early, which is an Error. Throws SqlFailure for other
/// faults than damage.
[[nodiscard]] Result<std::vector<std::string>> unreadablePlaces(Database& database,
                                                                const std::function<bool()>& goesOn);

} // namespace tarebook
