#pragma once

#include <span>
#include <string>

#include "core/base/instant.h"
#include "core/store/database.h"

namespace tarebook {

/// One step of the file's format. A shipped step is never edited.
struct MigrationStep {
    int version = 0;                   // the version it leads to
    std::string script;                // SQL
    bool remakesViews = true;          // false: the views stay as they are, as when an index is added
    void (*fill)(Database&) = nullptr; // what SQL alone cannot fill, of a file that is not new
};

/// All steps, from an empty file to the newest version.
[[nodiscard]] std::span<const MigrationStep> migrationSteps();
[[nodiscard]] int newestVersion();

/// Brings a file from its user_version to the last of the steps, in one transaction for each, after a copy
/// to `PATH.before-vN` when it is not new. Views are made anew by the caller when it returns true, which it
/// does when a step of an older file asks for it. Throws SqlFailure.
[[nodiscard]] Result<bool> migrate(Database& database, const std::string& path,
                                   std::span<const MigrationStep> steps, Instant now);

} // namespace tarebook
