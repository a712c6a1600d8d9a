#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/ledger/entry.h"
#include "core/store/database.h"

namespace tarebook {

/// SQL of the fifth version of the file: the files that belong to entries, each under its SHA-256 and kept
/// once. Not a view: the bytes stand nowhere else.
extern const char* const kAttachmentSchemaV5;

/// Keeps the file of an `attached` entry that is being written. Error: there are no bytes, or others than the
/// entry says. Throws SqlFailure, as all here.
[[nodiscard]] Result<bool> keepFile(Database& database, const Draft& attached);
/// The bytes as they lie there, whatever they are; nothing where there are none, or in a file of an older
/// version that is only read.
[[nodiscard]] std::optional<std::string> fileKept(Database& database, const std::string& sha256);
/// Files that entries up to `last` name and that are missing or are others, and files that no entry names;
/// empty when there are none.
[[nodiscard]] std::vector<std::string> fileProblems(Database& database, Sequence last);
/// Every entry that attaches a file, in order.
[[nodiscard]] std::vector<Entry> entriesThatAttach(Database& database);
/// Copies the files that the entries of the other file name.
void copyFiles(Database& source, Database& made);

} // namespace tarebook
