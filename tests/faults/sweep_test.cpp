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
constexpr std::int64_t kFewOfAWork = 8; // of a larger piece of work

class SweepTest : public testing::TestWithParam<Fault> {
protected:
    static void expectNoLoss(const std::vector<Work>& works, std::int64_t few) {
        const Swept swept = sweep(works, GetParam(), Measure::fromEnvironment(few));
        EXPECT_EQ(swept.losses, 0);
        EXPECT_GE(swept.calls, 2 * static_cast<std::int64_t>(works.size()));
        EXPECT_EQ(swept.done + swept.notDone + swept.unknown, swept.points);
        EXPECT_GT(swept.notDone, 0);
    }
};

std::string nameOf(const testing::TestParamInfo<Fault>& info) {
    static const char* const kNames[] = {"diskBefore", "diskAfter", "halfAWrite", "diskFull", "noMemory"};
    return kNames[static_cast<int>(info.param)];
}

} // namespace

TEST_P(SweepTest, EveryKindOfEntry) {
    expectNoLoss(appendsOfEveryKind(), kFewOfAKind);
}

TEST_P(SweepTest, ImportRebuildReview) {
    expectNoLoss(largerWorks(), kFewOfAWork);
}

TEST_P(SweepTest, CreatingOpeningMigrating) {
    expectNoLoss(openings(), kFewOfAWork);
}

TEST_P(SweepTest, CopiesAndGoingBack) {
    expectNoLoss(copies(), kFewOfAWork);
}

INSTANTIATE_TEST_SUITE_P(Faults, SweepTest, testing::ValuesIn(kFaults), nameOf);

TEST(ReadingTest, WhatCannotBeReadIsNeverAnotherNumber) {
    for (const Fault fault : {Fault::diskBefore, Fault::memory}) {
        EXPECT_EQ(sweep(readings(), fault, Measure::fromEnvironment(2 * kFewOfAWork)).losses, 0);
    }
}

TEST(WorkTest, EveryKindOfEntryIsAmongTheAppends) {
    std::set<EntryKind> kinds{EntryKind::operatorSet}; // appended by a function of its own
    for (const Draft& draft : everyKind()) {
        kinds.insert(draft.kind);
    }
    EXPECT_EQ(kinds.size(), static_cast<std::size_t>(EntryKind::operatorSet) + 1);
}
