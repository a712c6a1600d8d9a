#include "core/store/copying.h"

#include <filesystem>

#include <fcntl.h>
#include <unistd.h>

#include "core/base/text.h"
#include "core/store/private_file.h"

namespace tarebook {

namespace {

constexpr const char* kDurable = "PRAGMA synchronous=EXTRA";
// In portions, so that others may write in between; what they change is copied again.
constexpr int kPagesAtOnce = 4'096;
constexpr int kAllPages = -1;
constexpr std::int64_t kMostTimesOver = 3; // where others write all the time, the rest is copied at one go
constexpr int kTries = 50;
constexpr int kPauseMilliseconds = 100;

Result<bool> copyInto(Database& source, const std::string& destination) {
    makePrivateFile(destination);
    Database target(destination, Database::Mode::create);
    run(target, kDurable);
    sqlite3_backup* copy = sqlite3_backup_init(target.handle(), "main", source.handle(), "main");
    if (copy == nullptr) {
        target.fail(sqlite3_errcode(target.handle()));
    }
    int code = SQLITE_OK;
    std::int64_t pages = 0;
    for (int waits = 0; waits < kTries;) {
        const bool overAndOver = pages > kMostTimesOver * sqlite3_backup_pagecount(copy) + kPagesAtOnce;
        code = sqlite3_backup_step(copy, overAndOver ? kAllPages : kPagesAtOnce);
        if (code == SQLITE_BUSY || code == SQLITE_LOCKED) {
            ++waits;
            sqlite3_sleep(kPauseMilliseconds);
        } else if (code == SQLITE_OK) {
            pages += kPagesAtOnce;
        } else {
            break;
        }
    }
    const int finished = sqlite3_backup_finish(copy);
    if (code != SQLITE_DONE || finished != SQLITE_OK) {
        throw SqlFailure(finished != SQLITE_OK ? finished : code, "the copy failed");
    }
    return true;
}

} // namespace

Result<bool> copyDatabase(Database& source, const std::string& destination) {
    std::error_code problem;
    if (std::filesystem::exists(destination, problem)) {
        return Error{tarebook::quoted(destination) + " exists already", "choose a new name"};
    }
    try {
        auto copied = copyInto(source, destination);
        syncFolderOf(destination);
        return copied;
    } catch (const SqlFailure& failure) {
        std::filesystem::remove(destination, problem);
        return errorOf(failure);
    }
}

void syncFolderOf(const std::string& path) {
    const auto folder = std::filesystem::absolute(path).parent_path();
    const int handle = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (handle >= 0) {
        ::fsync(handle);
        ::close(handle);
    }
}

} // namespace tarebook
