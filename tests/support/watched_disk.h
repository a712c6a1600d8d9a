#pragma once

#include <functional>
#include <string>

#include <sqlite3.h>

namespace tarebook::tests {

/// What SQLite asks of the disk that changes it.
struct DiskCall {
    enum class Kind { create, write, truncate, sync, remove };
    Kind kind = Kind::write;
    std::string file;       // full path
    sqlite3_int64 from = 0; // write: offset; truncate: new size
    std::string bytes;      // write
    bool folder = false;    // remove: the folder is synced, too
};

/// The default file system of SQLite while this lives: the machine's own, but every call that changes the
/// disk passes `watch`, which does it by `go` (or does not) and says what SQLite is answered. One at a time.
class WatchedDisk {
public:
    using Watch = std::function<int(const DiskCall& call, const std::function<int()>& go)>;
    explicit WatchedDisk(Watch watch);
    WatchedDisk(const WatchedDisk&) = delete;
    WatchedDisk& operator=(const WatchedDisk&) = delete;
    ~WatchedDisk();

private:
    sqlite3_vfs m_vfs{};
};

} // namespace tarebook::tests
