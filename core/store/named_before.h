#pragma once

#include <string>

#include "core/store/database.h"

namespace tarebook {

/// Whether the books hold this name already: a subject of an entry, with or without its kind (an account, a
/// person, a job, a batch, ...), site or tag of a system, or a text of what is on file of one, as a customer
/// is. Earlier programs let characters into names that are refused now; what they named can be named again.
/// Goes through all of both tables. Throws SqlFailure.
[[nodiscard]] bool isNamed(Database& database, const std::string& name);

} // namespace tarebook
