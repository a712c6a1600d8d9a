// What an append answers when the disk fails: fault after fault, one call of SQLite to the disk later each
// time, until a run in which nothing failed (the method of SQLite's own I/O error tests,
// sqlite.org/testing.html section 3.2). Each fault once before and once after its effect.

#include <cstring>

#include <gtest/gtest.h>
#include <sqlite3.h>

#include "core/store/store.h"
#include "tests/store/sample_drafts.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

enum class When { before, after };

/// The next fault: counts down over writes, truncations, syncs and deletions.
struct Fault {
    int left = -1; // none when below zero
    bool stays = false;
    When when = When::before;
    int happened = 0;

    bool strikes() {
        if (stays && happened > 0) {
            ++happened;
            return true;
        }
        if (left < 0 || left-- != 0) {
            return false;
        }
        ++happened;
        return true;
    }
};
Fault g_fault;
sqlite3_vfs* g_base = nullptr;

struct File {
    sqlite3_file base;
    sqlite3_file* real;
};
sqlite3_file* real(sqlite3_file* file) {
    return reinterpret_cast<File*>(file)->real;
}

template <typename Work> int struck(int code, Work work) {
    if (!g_fault.strikes()) {
        return work();
    }
    if (g_fault.when == When::after) {
        work();
    }
    return code;
}

int closeFile(sqlite3_file* file) {
    return real(file)->pMethods->xClose(real(file));
}
int readFile(sqlite3_file* file, void* buffer, int amount, sqlite3_int64 offset) {
    return real(file)->pMethods->xRead(real(file), buffer, amount, offset);
}
int writeFile(sqlite3_file* file, const void* buffer, int amount, sqlite3_int64 offset) {
    return struck(SQLITE_IOERR_WRITE,
                  [&] { return real(file)->pMethods->xWrite(real(file), buffer, amount, offset); });
}
int truncateFile(sqlite3_file* file, sqlite3_int64 size) {
    return struck(SQLITE_IOERR_TRUNCATE, [&] { return real(file)->pMethods->xTruncate(real(file), size); });
}
int syncFile(sqlite3_file* file, int flags) {
    return struck(SQLITE_IOERR_FSYNC, [&] { return real(file)->pMethods->xSync(real(file), flags); });
}
int sizeOfFile(sqlite3_file* file, sqlite3_int64* size) {
    return real(file)->pMethods->xFileSize(real(file), size);
}
int lockFile(sqlite3_file* file, int level) {
    return real(file)->pMethods->xLock(real(file), level);
}
int unlockFile(sqlite3_file* file, int level) {
    return real(file)->pMethods->xUnlock(real(file), level);
}
int askReserved(sqlite3_file* file, int* result) {
    return real(file)->pMethods->xCheckReservedLock(real(file), result);
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

int openFile(sqlite3_vfs* /*vfs*/, const char* name, sqlite3_file* file, int flags, int* outFlags) {
    static sqlite3_io_methods methods = [] {
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
    auto* own = reinterpret_cast<File*>(file);
    own->real = reinterpret_cast<sqlite3_file*>(own + 1);
    std::memset(own->real, 0, static_cast<std::size_t>(g_base->szOsFile));
    const int code = g_base->xOpen(g_base, name, own->real, flags, outFlags);
    file->pMethods = own->real->pMethods == nullptr ? nullptr : &methods;
    return code;
}
int deleteFile(sqlite3_vfs* /*vfs*/, const char* name, int syncFolder) {
    return struck(g_fault.when == When::before ? SQLITE_IOERR_DELETE : SQLITE_IOERR_DIR_FSYNC,
                  [&] { return g_base->xDelete(g_base, name, syncFolder); });
}

/// The default file system of SQLite while this lives.
class FailingDisk {
public:
    FailingDisk() {
        g_base = sqlite3_vfs_find(nullptr);
        m_vfs = *g_base;
        m_vfs.pNext = nullptr;
        m_vfs.zName = "failing";
        m_vfs.szOsFile = static_cast<int>(sizeof(File)) + g_base->szOsFile;
        m_vfs.xOpen = openFile;
        m_vfs.xDelete = deleteFile;
        sqlite3_vfs_register(&m_vfs, 1);
        g_fault = {};
    }
    FailingDisk(const FailingDisk&) = delete;
    FailingDisk& operator=(const FailingDisk&) = delete;
    ~FailingDisk() {
        sqlite3_vfs_unregister(&m_vfs);
        sqlite3_vfs_register(g_base, 1);
    }

private:
    sqlite3_vfs m_vfs{};
};

struct Tally {
    int recorded = 0;
    int notRecorded = 0;
    int unknown = 0;
};

/// One append with a fault at its Nth call; what was answered must be what is there. False when the fault
/// did not come to pass.
bool appendWithFault(int call, When when, bool stays, Tally& tally) {
    const TempFolder folder(TempFolder::Where::memory);
    const SetClock clock(at(10'000));
    auto store = Store::create(folder.file("shop.tarebook"), clock).store;
    EXPECT_EQ(store->append({registered("A101")}).outcome, Outcome::recorded);
    const Draft draft =
        moved("r1", 10, EntryKind::recovered, "system:HARBOR/DOCK-1", "cylinder:A101", 1'000, "R-22");
    g_fault = {call, stays, when, 0};
    const AppendAnswer answer = store->append({draft});
    const int happened = g_fault.happened;
    g_fault = {};
    tally.recorded += answer.outcome == Outcome::recorded ? 1 : 0;
    tally.notRecorded += answer.outcome == Outcome::notRecorded ? 1 : 0;
    tally.unknown += answer.outcome == Outcome::unknown ? 1 : 0;

    // Another object, as another program would see it.
    {
        const auto other = Store::open(folder.file("shop.tarebook"), clock);
        EXPECT_TRUE(other.store) << call << ": " << other.error.text();
        const Sequence head = other.store ? other.store->headSeq() : -1;
        if (answer.outcome == Outcome::recorded) {
            EXPECT_EQ(head, 2) << call;
        } else if (answer.outcome == Outcome::notRecorded) {
            EXPECT_EQ(head, 1) << call << ": " << answer.error.text();
        } else {
            EXPECT_TRUE(head == 1 || head == 2) << call;
        }
    }
    // Asked again with the same id, by the same object, it is settled, once.
    const AppendAnswer again = store->append({draft});
    EXPECT_TRUE(again.outcome == Outcome::recorded || again.outcome == Outcome::alreadyRecorded)
        << call << ": " << again.error.text();
    EXPECT_EQ(store->headSeq(), 2) << call;
    EXPECT_EQ(store->append({registered("A102", 20)}).outcome, Outcome::recorded) << call;
    const auto verified = store->verify();
    EXPECT_TRUE(verified && verified.value().problems.empty()) << call;
    return happened > 0;
}

} // namespace

TEST(CommitTest, theAnswerIsWhatIsThereWhateverCallFails) {
    const FailingDisk disk;
    for (const bool stays : {false, true}) {
        for (const When when : {When::before, When::after}) {
            Tally tally;
            int call = 0;
            while (call < 500 && appendWithFault(call, when, stays, tally)) {
                ++call;
            }
            EXPECT_GT(call, 5);
            EXPECT_LT(call, 500);
            EXPECT_EQ(tally.recorded + tally.notRecorded + tally.unknown, call + 1);
            EXPECT_GT(tally.notRecorded, 0);
            // Once-only faults are settled within the append; a disk that stays broken cannot tell.
            EXPECT_EQ(tally.unknown > 0, stays);
            RecordProperty(std::string(stays ? "stays" : "once") +
                               (when == When::before ? "Before" : "After"),
                           std::to_string(call) + " calls, " + std::to_string(tally.unknown) + " unknown");
        }
    }
}
