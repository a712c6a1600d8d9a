// Nothing is written where the books were changed since somebody looked at them; what was looked at decides.
#include <gtest/gtest.h>

#include "core/store/store.h"
#include "tests/store/sample_drafts.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class LookedAtTest : public testing::Test {
protected:
    void SetUp() override {
        m_store = Store::create(m_folder.file("shop.tarebook"), m_clock).store;
        ASSERT_TRUE(m_store);
        put(*m_store, registered("A1"));
        put(*m_store, registered("A2"));
        m_other = Store::open(m_folder.file("shop.tarebook"), m_clock).store;
        ASSERT_TRUE(m_other);
    }
    static Sequence put(Store& store, const Draft& entry) {
        const AppendAnswer answer = store.append({entry});
        EXPECT_EQ(answer.outcome, Outcome::recorded) << answer.error.text();
        return answer.entries.empty() ? 0 : answer.entries.front();
    }
    static Draft returned(const char* id, const char* serial) {
        return draft(id, 20, EntryKind::returned, {{"serial", serial}});
    }
    AppendAnswer writeAfter(const LookedAt& looked, const Draft& entry) {
        return m_store->append({entry}, {}, looked);
    }

    TempFolder m_folder;
    SetClock m_clock{at(10'000)};
    std::unique_ptr<Store> m_store;
    std::unique_ptr<Store> m_other;
};

} // namespace

TEST_F(LookedAtTest, WhatNobodyChangedIsWritten) {
    const LookedAt all{m_store->headSeq()};
    EXPECT_EQ(writeAfter(all, returned("one", "A1")).outcome, Outcome::recorded);
    const LookedAt subject{m_store->headSeq(), {"cylinder:A1", "cylinder:NEVER-SEEN"}};
    EXPECT_EQ(writeAfter(subject, returned("two", "A1")).outcome, Outcome::recorded);
}

TEST_F(LookedAtTest, AnEntryAboutItStopsItAndOneAboutSomethingElseDoesNot) {
    const Sequence head = m_store->headSeq();
    put(*m_other, returned("theirs", "A2"));
    EXPECT_EQ(writeAfter({head, {"cylinder:A1"}}, returned("one", "A1")).outcome, Outcome::recorded);
    for (const LookedAt& looked : {LookedAt{head, {"cylinder:A1", "cylinder:A2"}}, LookedAt{head}}) {
        const Sequence before = m_store->headSeq();
        const AppendAnswer late = writeAfter(looked, returned("two", "A1"));
        EXPECT_EQ(late.outcome, Outcome::notRecorded);
        EXPECT_TRUE(late.outrun);
        EXPECT_FALSE(late.error.right.empty());
        EXPECT_EQ(m_store->headSeq(), before);
    }
}

TEST_F(LookedAtTest, AReversalCounts) {
    const Sequence theirs = put(*m_other, returned("theirs", "A2"));
    const LookedAt looked{m_store->headSeq(), {"cylinder:A2"}};
    put(*m_other, draft("back", 30, EntryKind::entryReversed, {{"entry", theirs}, {"reason", "slip"}}));
    EXPECT_TRUE(writeAfter(looked, returned("one", "A2")).outrun);
}

TEST_F(LookedAtTest, ASecondTryOfWhatIsWrittenIsNotOutrun) {
    const LookedAt looked{m_store->headSeq()};
    EXPECT_EQ(writeAfter(looked, returned("one", "A1")).outcome, Outcome::recorded);
    EXPECT_EQ(writeAfter(looked, returned("one", "A1")).outcome, Outcome::alreadyRecorded);
    // The same id with other content is no second try.
    EXPECT_EQ(writeAfter(looked, returned("one", "A2")).outcome, Outcome::notRecorded);
}
