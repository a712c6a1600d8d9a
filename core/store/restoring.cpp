#include "core/store/restoring.h"

#include <filesystem>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/store/copying.h"
#include "core/store/database.h"

namespace tarebook {

namespace {

namespace fs = std::filesystem;

constexpr const char* kLock = "BEGIN EXCLUSIVE";
constexpr const char* kJournalSuffix = "-journal";

Result<bool> whole(const std::string& path, const Clock& clock) {
    const auto opened = Store::open(path, clock, true);
    if (!opened.store) {
        return opened.error;
    }
    const auto verified = opened.store->verify();
    if (!verified) {
        return verified.error();
    }
    if (!verified.value().problems.empty()) {
        return Error{tarebook::quoted(path) + ": " + verified.value().problems.front(), "use another backup"};
    }
    return true;
}

/// Error when another program works in the file; a damaged one has no one who could.
Result<bool> notInUse(const std::string& path) {
    try {
        Database database(path, Database::Mode::readWrite);
        run(database, kLock);
        database.execute("ROLLBACK");
    } catch (const SqlFailure& failure) {
        if (failure.primary() == SQLITE_BUSY) {
            return Error{tarebook::quoted(path) + " is in use by another program", "close it there first"};
        }
    }
    return true;
}

std::string freeName(const std::string& path) {
    int number = 1;
    while (fs::exists(fmt::format("{}.before-restore-{}", path, number))) {
        ++number;
    }
    return fmt::format("{}.before-restore-{}", path, number);
}

/// The name that the file has now which was there; empty: none was.
Result<std::string> exchanged(const std::string& fresh, const std::string& path) {
    std::error_code problem;
    std::string old;
    if (fs::exists(path, problem)) {
        const auto unused = notInUse(path);
        if (!unused) {
            return unused.error();
        }
        old = freeName(path);
        fs::rename(path, old, problem);
        if (!problem && fs::exists(path + kJournalSuffix)) {
            fs::rename(path + kJournalSuffix, old + kJournalSuffix, problem);
        }
    }
    if (!problem) {
        fs::rename(fresh, path, problem);
    }
    syncFolderOf(path);
    if (problem) {
        return Error{
            fmt::format("{} cannot be put in its place: {}", tarebook::quoted(path), problem.message()),
            "check the folder's permissions"};
    }
    return old;
}

} // namespace

Result<bool> verifiedCopy(const std::string& path, const Clock& clock) {
    auto good = whole(path, clock);
    if (!good) {
        std::error_code problem;
        fs::remove(path, problem);
    }
    return good;
}

Result<std::string> restoreBackup(const std::string& backup, const std::string& path, const Clock& clock) {
    const auto good = whole(backup, clock);
    if (!good) {
        return good.error();
    }
    const std::string fresh = path + ".restoring";
    std::error_code problem;
    fs::remove(fresh, problem); // left by an attempt that was cut off
    try {
        Database source(backup, Database::Mode::readOnly);
        const auto copied = copyDatabase(source, fresh);
        if (!copied) {
            return copied.error();
        }
    } catch (const SqlFailure& failure) {
        return errorOf(failure);
    }
    const auto verified = verifiedCopy(fresh, clock);
    if (!verified) {
        return verified.error();
    }
    auto put = exchanged(fresh, path);
    if (!put) {
        fs::remove(fresh, problem);
    }
    return put;
}

} // namespace tarebook
