#pragma once

#include <functional>
#include <string>

#include <sqlite3.h>

namespace tarebook::tests {

/// What SQLite asks of the disk: what changes it first, then what does not.
struct DiskCall {
    enum class Kind { create, write, truncate, sync, remove, open, access, read, size, lock };
    Kind kind = Kind::write;
    std::string file;               // full path; empty for a nameless temporary file
    sqlite3_int64 from = 0;         // write: offset; truncate: new size
    std::string bytes;              // write
    bool folder = false;            // remove: the folder is synced, too
    std::function<int()> half = {}; // write: does the first half of it
    [[nodiscard]] bool changes() const { return kind <= Kind::remove; }
};

/// The default file system of SQLite while this lives: the machine's own, but every call that changes the
/// disk (or every call at all) passes `watch`, which does it by `go` (or does not) and says what SQLite is
/// answered. One at a time.
class WatchedDisk {
public:
    using Watch = std::function<int(const DiskCall& call, const std::function<int()>& go)>;
    enum class Calls { changing, all };
    explicit WatchedDisk(Watch watch, Calls calls = Calls::changing);
    WatchedDisk(const WatchedDisk&) = delete;
    WatchedDisk& operator=(const WatchedDisk&) = delete;
    ~WatchedDisk();

private:
    sqlite3_vfs m_vfs{};
};

} // namespace tarebook::tests
