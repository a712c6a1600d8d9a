#include "core/store/attachment_table.h"

#include <set>

#include <fmt/format.h>

#include "core/base/sha256.h"
#include "core/ledger/attached_file.h"
#include "core/store/journal_table.h"
#include "core/store/pragmas.h"

namespace tarebook {

const char* const kAttachmentSchemaV5 = R"sql(
CREATE TABLE attachment(
  sha256 TEXT PRIMARY KEY CHECK(length(sha256) = 64),
  bytes BLOB NOT NULL CHECK(length(bytes) > 0)
) STRICT;
CREATE INDEX journal_attached ON journal(seq) WHERE kind = 'attached';
CREATE TRIGGER attachment_is_never_changed BEFORE UPDATE ON attachment
BEGIN SELECT RAISE(ABORT, 'a file that belongs to an entry is never changed'); END;
CREATE TRIGGER attachment_is_never_dropped BEFORE DELETE ON attachment
BEGIN SELECT RAISE(ABORT, 'a file that belongs to an entry is never dropped'); END;
)sql";

namespace {

constexpr std::int64_t kFilesSince = 5; // version of the shop file
constexpr const char* kKeptBytes = "SELECT bytes FROM attachment WHERE sha256 = ?1";
constexpr const char* kKeepBytes = "INSERT INTO attachment(sha256, bytes) VALUES(?1, ?2)";
constexpr const char* kHashes = "SELECT sha256 FROM attachment ORDER BY sha256";
constexpr const char* kAttachedEntries =
    "SELECT seq, body FROM journal WHERE kind = 'attached' AND seq <= ?1 ORDER BY seq";

constexpr const char* kAttachingSeqs = "SELECT seq FROM journal WHERE kind = 'attached' ORDER BY seq";

bool keepsFiles(Database& database) {
    return userVersionOf(database) >= kFilesSince;
}

/// What the entries up to `last` name: the hash of each.
std::vector<std::pair<Sequence, AttachedFile>> namedFiles(Database& database, Sequence last) {
    std::vector<std::pair<Sequence, AttachedFile>> named;
    Query query(database, kAttachedEntries, last);
    while (query.step()) {
        auto file = AttachedFile::from(nlohmann::json::parse(query.view(1), nullptr, false));
        if (file) {
            named.emplace_back(query.integer(0), std::move(file).value());
        }
    }
    return named;
}

} // namespace

Result<bool> keepFile(Database& database, const Draft& attached) {
    const auto said = AttachedFile::from(attached.body);
    if (!said) {
        return said.error();
    }
    const AttachedFile& file = said.value();
    if (file.entry > wholeNumber(database, "SELECT coalesce(max(seq), 0) FROM journal", 0)) {
        return Error{fmt::format("there is no entry {} to attach it to", file.entry),
                     "attach it to one that stands"};
    }
    if (attached.file.empty() && fileKept(database, file.sha256)) {
        return true;
    }
    if (attached.file.size() != file.size || sha256Hex(attached.file) != file.sha256) {
        return Error{fmt::format("the file {} is not the one that its entry says", file.name),
                     "read it again and attach it"};
    }
    if (!fileKept(database, file.sha256)) {
        run(database, kKeepBytes, file.sha256, Bytes{attached.file});
    }
    return true;
}

std::optional<std::string> fileKept(Database& database, const std::string& sha256) {
    if (!keepsFiles(database)) {
        return std::nullopt;
    }
    Query query(database, kKeptBytes, sha256);
    return query.step() ? std::optional(std::string(query.bytes(0))) : std::nullopt;
}

std::vector<std::string> fileProblems(Database& database, Sequence last) {
    std::vector<std::string> problems;
    if (!keepsFiles(database)) {
        return problems;
    }
    std::set<std::string> named;
    for (const auto& [entry, file] : namedFiles(database, last)) {
        if (!named.insert(file.sha256).second) {
            continue;
        }
        const auto bytes = fileKept(database, file.sha256);
        if (!bytes) {
            problems.push_back(fmt::format("entry {}: the attached file {} is missing", entry, file.name));
        } else if (sha256Hex(*bytes) != file.sha256) {
            problems.push_back(
                fmt::format("entry {}: the attached file {} is another than was attached", entry, file.name));
        }
    }
    Query query(database, kHashes);
    while (query.step()) {
        if (!named.contains(query.text(0))) {
            problems.push_back(fmt::format("an attached file that no entry names: {}", query.view(0)));
        }
    }
    return problems;
}

std::vector<Entry> entriesThatAttach(Database& database) {
    std::vector<Entry> entries;
    Query query(database, kAttachingSeqs);
    while (query.step()) {
        if (auto entry = entryWith(database, query.integer(0))) {
            entries.push_back(std::move(*entry));
        }
    }
    return entries;
}

void copyFiles(Database& source, Database& made) {
    for (const auto& [entry, file] :
         namedFiles(made, wholeNumber(made, "SELECT coalesce(max(seq), 0) FROM journal", 0))) {
        const auto bytes = fileKept(source, file.sha256);
        if (bytes && !fileKept(made, file.sha256)) {
            run(made, kKeepBytes, file.sha256, Bytes{*bytes});
        }
    }
}

} // namespace tarebook
