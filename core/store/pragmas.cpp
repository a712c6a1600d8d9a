#include "core/store/pragmas.h"

#include <array>
#include <charconv>

#include <fmt/format.h>

namespace tarebook {

namespace {

struct Setting {
    const char* set;
    const char* ask;
    std::string_view value;
    bool whenReadOnly;
};

// DELETE with EXTRA lost nothing in the crash images; FULL lost entries when the journal's unlink was not yet
// on the disk.
// The cache, in KiB: the upper pages of a file of ten million entries stay in it (the default is 2 MB). It is
// taken as pages are read.
constexpr std::array<Setting, 8> kSettings = {{
    {"PRAGMA journal_mode=DELETE", "PRAGMA journal_mode", "delete", false},
    {"PRAGMA synchronous=EXTRA", "PRAGMA synchronous", "3", true},
    {"PRAGMA foreign_keys=ON", "PRAGMA foreign_keys", "1", true},
    {"PRAGMA recursive_triggers=ON", "PRAGMA recursive_triggers", "1", true},
    {"PRAGMA trusted_schema=OFF", "PRAGMA trusted_schema", "0", true},
    {"PRAGMA cell_size_check=ON", "PRAGMA cell_size_check", "1", true},
    {"PRAGMA mmap_size=0", "PRAGMA mmap_size", "0", true},
    {"PRAGMA cache_size=-32768", "PRAGMA cache_size", "-32768", true},
}};
// SQLite refuses a file that was cut off, unless its schema may be written; the connection cannot write.
constexpr const char* kTakeCutOff = "PRAGMA writable_schema=ON";
constexpr const char* kAskApplicationId = "PRAGMA application_id";
constexpr const char* kUserVersion = "PRAGMA user_version";
constexpr const char* kDataVersion = "PRAGMA data_version";
constexpr const char* kIntegrity = "PRAGMA integrity_check(20)";
constexpr const char* kForeignKeys = "PRAGMA foreign_key_check";

/// A page that cannot be read for want of memory or by a fault of the disk says nothing about the books.
void throwIfNotRead(std::string_view row) {
    // Of a page of a large value SQLite gives no code; a number that no page has, it calls invalid.
    if (row.find("failed to get page") != std::string_view::npos) {
        throw SqlFailure(SQLITE_IOERR, "a page could not be read");
    }
    constexpr std::string_view kCode = "error code=";
    const std::size_t place = row.find(kCode);
    if (place == std::string_view::npos) {
        return;
    }
    int code = 0;
    std::from_chars(row.data() + place + kCode.size(), row.data() + row.size(), code);
    const int primary = code & 0xff;
    if (primary == SQLITE_IOERR || primary == SQLITE_NOMEM) {
        throw SqlFailure(code, "a page could not be read");
    }
}

} // namespace

Result<bool> applySettings(Database& database, bool readOnly) {
    for (const Setting& setting : kSettings) {
        if (readOnly && !setting.whenReadOnly) {
            continue;
        }
        run(database, setting.set);
        Query query(database, setting.ask);
        const std::string found = query.step() ? query.text(0) : std::string(setting.value);
        if (found != setting.value) {
            return Error{
                fmt::format("{} is {} and would not change to {}", setting.ask, found, setting.value),
                "close other programs that hold the shop file"};
        }
    }
    return true;
}

void readEvenIfCutOff(Database& database) {
    run(database, kTakeCutOff);
}

std::int64_t applicationIdOf(Database& database) {
    return wholeNumber(database, kAskApplicationId, 0);
}

std::int64_t userVersionOf(Database& database) {
    return wholeNumber(database, kUserVersion, 0);
}

void setUserVersion(Database& database, int version) {
    database.execute(fmt::format("PRAGMA user_version={}", version));
}

std::int64_t dataVersionOf(Database& database) {
    return wholeNumber(database, kDataVersion, 0);
}

std::vector<std::string> integrityProblems(Database& database) {
    std::vector<std::string> problems;
    Query integrity(database, kIntegrity);
    while (integrity.step()) {
        throwIfNotRead(integrity.view(0));
        if (integrity.view(0) != "ok") {
            problems.push_back(fmt::format("integrity: {}", integrity.view(0)));
        }
    }
    Query keys(database, kForeignKeys);
    while (keys.step() && problems.size() < 40) {
        problems.push_back(fmt::format("a row of {} points nowhere", keys.view(0)));
    }
    return problems;
}

} // namespace tarebook
