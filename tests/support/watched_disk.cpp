#include "tests/support/watched_disk.h"

#include <cstring>

namespace tarebook::tests {

namespace {

WatchedDisk::Watch g_watch;
WatchedDisk::Calls g_calls = WatchedDisk::Calls::changing;
sqlite3_vfs* g_base = nullptr;

struct File {
    sqlite3_file base;
    sqlite3_file* real;
    const char* name; // SQLite keeps it while the file is open; null for a nameless temporary one
};

sqlite3_file* real(sqlite3_file* file) {
    return reinterpret_cast<File*>(file)->real;
}

std::string nameOf(sqlite3_file* file) {
    const char* name = reinterpret_cast<File*>(file)->name;
    return name == nullptr ? std::string() : std::string(name);
}

/// A call that changes nothing.
int asked(DiskCall::Kind kind, const std::string& name, const std::function<int()>& go) {
    return g_calls == WatchedDisk::Calls::all ? g_watch({kind, name, 0, {}}, go) : go();
}

int closeFile(sqlite3_file* file) {
    return real(file)->pMethods->xClose(real(file));
}
int readFile(sqlite3_file* file, void* buffer, int amount, sqlite3_int64 offset) {
    return asked(DiskCall::Kind::read, nameOf(file),
                 [&] { return real(file)->pMethods->xRead(real(file), buffer, amount, offset); });
}
int writeFile(sqlite3_file* file, const void* buffer, int amount, sqlite3_int64 offset) {
    const std::string bytes(static_cast<const char*>(buffer), static_cast<std::size_t>(amount));
    const auto writeSome = [&](int some) {
        return real(file)->pMethods->xWrite(real(file), buffer, some, offset);
    };
    return g_watch(
        {DiskCall::Kind::write, nameOf(file), offset, bytes, false, [&] { return writeSome(amount / 2); }},
        [&] { return writeSome(amount); });
}
int truncateFile(sqlite3_file* file, sqlite3_int64 size) {
    return g_watch({DiskCall::Kind::truncate, nameOf(file), size, {}},
                   [&] { return real(file)->pMethods->xTruncate(real(file), size); });
}
int syncFile(sqlite3_file* file, int flags) {
    return g_watch({DiskCall::Kind::sync, nameOf(file), 0, {}},
                   [&] { return real(file)->pMethods->xSync(real(file), flags); });
}
int sizeOfFile(sqlite3_file* file, sqlite3_int64* size) {
    return asked(DiskCall::Kind::size, nameOf(file),
                 [&] { return real(file)->pMethods->xFileSize(real(file), size); });
}
int lockFile(sqlite3_file* file, int level) {
    return asked(DiskCall::Kind::lock, nameOf(file),
                 [&] { return real(file)->pMethods->xLock(real(file), level); });
}
int unlockFile(sqlite3_file* file, int level) {
    return real(file)->pMethods->xUnlock(real(file), level);
}
int askReserved(sqlite3_file* file, int* result) {
    return asked(DiskCall::Kind::lock, nameOf(file),
                 [&] { return real(file)->pMethods->xCheckReservedLock(real(file), result); });
}
int control(sqlite3_file* file, int operation, void* argument) {
    return real(file)->pMethods->xFileControl(real(file), operation, argument);
}
int sectorOf(sqlite3_file* file) {
    return real(file)->pMethods->xSectorSize(real(file));
}
int traitsOf(sqlite3_file* file) {
    return real(file)->pMethods->xDeviceCharacteristics(real(file));
}

const sqlite3_io_methods& methods() {
    static const sqlite3_io_methods kMethods = [] {
        sqlite3_io_methods made{};
        made.iVersion = 1;
        made.xClose = closeFile;
        made.xRead = readFile;
        made.xWrite = writeFile;
        made.xTruncate = truncateFile;
        made.xSync = syncFile;
        made.xFileSize = sizeOfFile;
        made.xLock = lockFile;
        made.xUnlock = unlockFile;
        made.xCheckReservedLock = askReserved;
        made.xFileControl = control;
        made.xSectorSize = sectorOf;
        made.xDeviceCharacteristics = traitsOf;
        return made;
    }();
    return kMethods;
}

int openFile(sqlite3_vfs* /*vfs*/, const char* name, sqlite3_file* file, int flags, int* outFlags) {
    auto* own = reinterpret_cast<File*>(file);
    own->real = reinterpret_cast<sqlite3_file*>(own + 1);
    own->name = name;
    std::memset(own->real, 0, static_cast<std::size_t>(g_base->szOsFile));
    file->pMethods = nullptr;
    const auto go = [&] {
        const int code = g_base->xOpen(g_base, name, own->real, flags, outFlags);
        file->pMethods = own->real->pMethods == nullptr ? nullptr : &methods();
        return code;
    };
    int there = 1;
    if (name != nullptr && (flags & SQLITE_OPEN_CREATE) != 0) {
        g_base->xAccess(g_base, name, SQLITE_ACCESS_EXISTS, &there);
    }
    return there != 0 ? asked(DiskCall::Kind::open, nameOf(file), go)
                      : g_watch({DiskCall::Kind::create, name, 0, {}}, go);
}
int accessFile(sqlite3_vfs* /*vfs*/, const char* name, int flags, int* answer) {
    return asked(DiskCall::Kind::access, name, [&] { return g_base->xAccess(g_base, name, flags, answer); });
}
int deleteFile(sqlite3_vfs* /*vfs*/, const char* name, int syncFolder) {
    return g_watch({DiskCall::Kind::remove, name, 0, {}, syncFolder != 0},
                   [&] { return g_base->xDelete(g_base, name, syncFolder); });
}

} // namespace

WatchedDisk::WatchedDisk(Watch watch, Calls calls) {
    g_watch = std::move(watch);
    g_calls = calls;
    g_base = sqlite3_vfs_find(nullptr);
    m_vfs = *g_base;
    m_vfs.pNext = nullptr;
    m_vfs.zName = "watched";
    m_vfs.szOsFile = static_cast<int>(sizeof(File)) + g_base->szOsFile;
    m_vfs.xOpen = openFile;
    m_vfs.xDelete = deleteFile;
    m_vfs.xAccess = accessFile;
    sqlite3_vfs_register(&m_vfs, 1);
}

WatchedDisk::~WatchedDisk() {
    sqlite3_vfs_unregister(&m_vfs);
    sqlite3_vfs_register(g_base, 1);
    g_watch = {};
}

} // namespace tarebook::tests
