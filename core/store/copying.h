#pragma once

#include <string>

#include "core/store/database.h"

namespace tarebook {

/// Copies the whole database to a new file with SQLite's online backup, while it is in use. Error: the
/// destination exists or cannot be written; nothing is left there then. Throws SqlFailure where the source
/// cannot be read.
[[nodiscard]] Result<bool> copyDatabase(Database& source, const std::string& destination);
/// Makes the names in the folder of `path` durable.
void syncFolderOf(const std::string& path);

} // namespace tarebook
