#include <gtest/gtest.h>

#include <new>
#include <thread>
#include <utility>

#include "core/store/entries_ahead.h"
#include "core/store/leg_table.h"
#include "core/store/schema_v1.h"
#include "tests/store/sample_drafts.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr Sequence kSome = 2'600; // of three batches

/// A journal of weighings, one row of which may have a body that is no JSON. Its digests are invented: who
/// reads entries does not follow the chain.
Database journalOf(Sequence last, Sequence damaged) {
    Database journal = Database::inMemory();
    journal.execute(kJournalSchemaV1);
    const std::string digest(64, 'd');
    for (Sequence seq = 1; seq <= last; ++seq) {
        Entry entry;
        static_cast<Draft&>(entry) =
            draft(fmt::format("w-{}", seq), seq, EntryKind::weighed,
                  {{"serial", fmt::format("A{}", seq % 7)}, {"gross_mg", 15'000'000 + seq}});
        entry.body["tare_mg"] = 12'700'000;
        entry.body["tolerance_mg"] = 40'000;
        entry.seq = seq;
        entry.recorded = entry.occurred;
        entry.previous = seq == 1 ? std::string(kGenesisDigest) : digest;
        entry.digest = digest;
        insertEntry(journal, entry, seq == damaged ? "{" : entry.body.dump());
    }
    return journal;
}

} // namespace

// Beside the plain road, which reads and makes one entry after the other, for ends in, at and behind a batch.
TEST(EntriesAheadTest, areThoseOfTheJournalInItsOrder) {
    Database journal = journalOf(kSome, 0);
    for (const auto& [first, last] : std::vector<std::pair<Sequence, Sequence>>{
             {1, kSome}, {2, 1'025}, {1, 1'024}, {1, 2'048}, {kSome, kNow}, {7, 6}}) {
        std::vector<Entry> plain;
        visitEntries(journal, first, last, [&](const Entry& entry) {
            plain.push_back(entry);
            return true;
        });
        std::size_t place = 0;
        visitPrepared(journal, first, last, [&](PreparedEntry& prepared, std::string_view body) {
            EXPECT_LT(place, plain.size());
            const Entry& entry = plain[place++];
            EXPECT_EQ(prepared.entry.seq, entry.seq);
            EXPECT_TRUE(sameContent(prepared.entry, entry)) << entry.seq;
            EXPECT_EQ(prepared.entry.digest, entry.digest);
            EXPECT_EQ(body, entry.body.dump());
            const auto masses = massFactsOf(entry);
            EXPECT_TRUE(prepared.facts.masses &&
                        prepared.facts.masses.value().weighings == masses.value().weighings);
            const std::string serial = fmt::format("A{}", entry.seq % 7);
            EXPECT_EQ(prepared.facts.serials, std::vector<std::string>{serial});
            EXPECT_EQ(prepared.facts.subjects.size(), 1U);
            EXPECT_EQ(prepared.facts.subjects.front().text, "cylinder:" + serial);
            EXPECT_TRUE(prepared.facts.subjects.front().mass);
            return !testing::Test::HasFailure();
        });
        EXPECT_EQ(place, plain.size()) << first << " to " << last;
    }
}

TEST(EntriesAheadTest, aDamagedRowEndsTheRoadBeforeItIsReached) {
    Database journal = journalOf(kSome, 2'100);
    Sequence reached = 0;
    try {
        visitPrepared(journal, 1, kSome, [&](PreparedEntry& prepared, std::string_view /*body*/) {
            reached = prepared.entry.seq;
            return true;
        });
        ADD_FAILURE() << "nothing was thrown";
    } catch (const SqlFailure& failure) {
        EXPECT_EQ(failure.primary(), SQLITE_CORRUPT);
        EXPECT_STREQ(failure.what(), "entry 2100 cannot be read");
    }
    EXPECT_GE(reached, 1'000);
    EXPECT_LT(reached, 2'100);
}

// Whoever stops, or throws, is not told of what is wrong further on, which was looked at meanwhile.
TEST(EntriesAheadTest, theVisitorsWordComesFirst) {
    Database journal = journalOf(kSome, 1'030);
    Sequence reached = 0;
    visitPrepared(journal, 1, kSome, [&](PreparedEntry& prepared, std::string_view /*body*/) {
        reached = prepared.entry.seq;
        return reached < 1'000;
    });
    EXPECT_EQ(reached, 1'000);
    EXPECT_THROW(visitPrepared(journal, 1, kSome,
                               [](PreparedEntry& /*prepared*/, std::string_view /*body*/) -> bool {
                                   throw std::bad_alloc();
                               }),
                 std::bad_alloc);
}

// SQLite's connection is opened without a lock of its own: one thread may use it.
TEST(EntriesAheadTest, theVisitorRunsInTheCallersThread) {
    Database journal = journalOf(1'100, 0);
    const std::thread::id caller = std::this_thread::get_id();
    visitPrepared(journal, 1, kNow, [&](PreparedEntry& /*prepared*/, std::string_view /*body*/) {
        EXPECT_EQ(std::this_thread::get_id(), caller);
        return true;
    });
}
