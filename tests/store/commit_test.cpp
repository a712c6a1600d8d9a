// What an append answers when the disk fails: fault after fault, one call of SQLite to the disk later each
// time, until a run in which nothing failed (the method of SQLite's own I/O error tests,
// sqlite.org/testing.html section 3.2). Each fault once before and once after its effect.

#include <gtest/gtest.h>

#include "core/store/store.h"
#include "tests/store/sample_drafts.h"
#include "tests/support/watched_disk.h"

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

int codeOf(DiskCall::Kind kind) {
    switch (kind) {
    case DiskCall::Kind::truncate:
        return SQLITE_IOERR_TRUNCATE;
    case DiskCall::Kind::sync:
        return SQLITE_IOERR_FSYNC;
    case DiskCall::Kind::remove:
        return g_fault.when == When::before ? SQLITE_IOERR_DELETE : SQLITE_IOERR_DIR_FSYNC;
    default:
        return SQLITE_IOERR_WRITE;
    }
}

int failing(const DiskCall& call, const std::function<int()>& go) {
    if (call.kind == DiskCall::Kind::create || !g_fault.strikes()) {
        return go();
    }
    if (g_fault.when == When::after) {
        go();
    }
    return codeOf(call.kind);
}

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
    g_fault = {};
    const WatchedDisk disk(failing);
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
