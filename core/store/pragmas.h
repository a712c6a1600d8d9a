#pragma once

#include "core/store/database.h"

namespace tarebook {

/// Sets what a shop file is kept with (rollback journal DELETE, synchronous EXTRA, foreign keys, recursive
/// triggers, no memory mapping, no trust in the schema) and reads it back. Error: SQLite would not take it.
[[nodiscard]] Result<bool> applySettings(Database& database, bool readOnly);
/// Lets a connection for reading take a file that is shorter than its first page says: what is left can be
/// read.
void readEvenIfCutOff(Database& database);
[[nodiscard]] std::int64_t applicationIdOf(Database& database);
[[nodiscard]] std::int64_t userVersionOf(Database& database);
void setUserVersion(Database& database, int version);
[[nodiscard]] std::int64_t dataVersionOf(Database& database);
/// Lines of `PRAGMA integrity_check` and `foreign_key_check`; empty when all is well.
[[nodiscard]] std::vector<std::string> integrityProblems(Database& database);

} // namespace tarebook
