// Each call to the disk and each allocation fails once, and from then on: the loops of SQLite's own tests
// (sqlite.org/testing.html sections 3.1, 3.2), asked of our answers. Only a few points, drawn anew each time,
// unless TAREBOOK_FAULT_POINTS says `all`; TAREBOOK_FAULT_SEED draws the same ones again.

#include <set>

#include <gtest/gtest.h>

#include "tests/faults/sweep.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr std::int64_t kFewOfAKind = 1; // points of one kind of entry and one fault
constexpr std::int64_t kFewOfAWork = 6; // of a larger piece of work

void expectNoLoss(const std::vector<Work>& works, const std::vector<Fault>& faults, std::int64_t few) {
    const Swept swept = sweep(works, faults, Measure::fromEnvironment(few));
    EXPECT_EQ(swept.losses, 0);
    EXPECT_GE(swept.points, static_cast<std::int64_t>(faults.size()));
    EXPECT_EQ(swept.done + swept.notDone + swept.unknown, swept.points);
    EXPECT_GT(swept.notDone, 0);
}

} // namespace

TEST(SweepTest, EveryKindOfEntry) {
    expectNoLoss(appendsOfEveryKind(), kFaults, kFewOfAKind);
}

TEST(SweepTest, ImportRebuildReview) {
    expectNoLoss(largerWorks(), kFaults, kFewOfAWork);
}

TEST(SweepTest, CreatingOpeningMigrating) {
    expectNoLoss(openings(), kFaults, kFewOfAWork);
}

TEST(SweepTest, CopiesAndGoingBack) {
    expectNoLoss(copies(), kFaults, kFewOfAWork);
}

TEST(SweepTest, WhatCannotBeReadIsNeverAnotherNumber) {
    expectNoLoss(readings(), {Fault::diskBefore, Fault::memory}, 2 * kFewOfAWork);
}

TEST(WorkTest, EveryKindOfEntryIsAmongTheAppends) {
    std::set<EntryKind> kinds{EntryKind::operatorSet}; // appended by a function of its own
    for (const Draft& draft : everyKind()) {
        kinds.insert(draft.kind);
    }
    EXPECT_EQ(kinds.size(), static_cast<std::size_t>(EntryKind::attached) + 1);
}
