#include <fstream>

#include <gtest/gtest.h>
#include <sqlite3.h>

#include "core/store/earlier_books.h"
#include "core/store/store.h"
#include "tests/store/sample_drafts.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class CareTest : public testing::Test {
protected:
    void SetUp() override {
        auto opened = Store::create(m_path, m_clock);
        ASSERT_TRUE(opened.store);
        m_store = std::move(opened.store);
        ASSERT_EQ(
            m_store
                ->append({registered("A101"), registered("A102"),
                          moved("r1", 10, EntryKind::recovered, "system:HARBOR/DOCK-1", "cylinder:A101",
                                6'000'000, "R-22"),
                          moved("d1", 20, EntryKind::decanted, "cylinder:A101", "cylinder:A102", 1'000'000)})
                .outcome,
            Outcome::recorded);
    }

    void meddle(const std::string& sql) {
        sqlite3* handle = nullptr;
        sqlite3_open(m_path.c_str(), &handle);
        EXPECT_EQ(sqlite3_exec(handle, sql.c_str(), nullptr, nullptr, nullptr), SQLITE_OK);
        sqlite3_close(handle);
    }

    /// Names and texts of all tables, indexes and triggers of a file.
    static std::string schemaOf(const std::string& path) {
        std::string schema;
        sqlite3* handle = nullptr;
        sqlite3_open(path.c_str(), &handle);
        sqlite3_stmt* rows = nullptr;
        sqlite3_prepare_v2(handle, "SELECT name || ' ' || coalesce(sql, '') FROM sqlite_schema ORDER BY name",
                           -1, &rows, nullptr);
        while (sqlite3_step(rows) == SQLITE_ROW) {
            schema += reinterpret_cast<const char*>(sqlite3_column_text(rows, 0));
            schema += '\n';
        }
        sqlite3_finalize(rows);
        sqlite3_close(handle);
        return schema;
    }

    std::vector<std::string> problems(VerifyDepth depth = VerifyDepth::all) {
        const auto verified = m_store->verify({}, depth);
        EXPECT_TRUE(verified);
        return verified ? verified.value().problems : std::vector<std::string>{};
    }

    TempFolder m_folder;
    std::string m_path = m_folder.file("shop.tarebook");
    SetClock m_clock{at(10'000)};
    std::unique_ptr<Store> m_store;
};

} // namespace

TEST_F(CareTest, verifyingFindsAViewThatStrayedAndRebuildingMendsIt) {
    EXPECT_TRUE(problems().empty());
    meddle("UPDATE cylinder SET net = net + 1 WHERE serial = 'A102'");
    EXPECT_EQ(problems().size(), 1U);
    meddle("UPDATE leg SET moved = replace(moved, '1000000', '1000001')");
    EXPECT_EQ(problems().size(), 2U);
    meddle("DELETE FROM touch WHERE seq = 4");
    EXPECT_EQ(problems().size(), 3U);
    ASSERT_TRUE(m_store->rebuild());
    EXPECT_TRUE(problems().empty());
    EXPECT_EQ(m_store->cylinder("A102").value()->content.total().milligrams(), 1'000'000);
}

TEST_F(CareTest, verifyingFindsAnEntryThatWasChanged) {
    meddle("DROP TRIGGER journal_is_never_changed;"
           "UPDATE journal SET body = replace(body, '6000000', '5000000') WHERE seq = 3");
    const auto found = problems();
    ASSERT_EQ(found.size(), 1U);
    EXPECT_NE(found.front().find("entry 3"), std::string::npos);
}

TEST_F(CareTest, theChainAloneSaysNothingOfViewsAndAllOfEntries) {
    meddle("UPDATE cylinder SET net = net + 1 WHERE serial = 'A102'");
    EXPECT_EQ(problems().size(), 1U);
    EXPECT_TRUE(problems(VerifyDepth::chain).empty());
    EXPECT_EQ(m_store->verify({}, VerifyDepth::chain).value().head, m_store->headDigest());
    meddle("DROP TRIGGER journal_is_never_changed;"
           "UPDATE journal SET body = replace(body, '6000000', '5000000') WHERE seq = 3");
    EXPECT_EQ(problems(VerifyDepth::chain), problems());
    EXPECT_EQ(problems().size(), 1U);
}

// A rotten byte can make a text that is no UTF-8 at all.
TEST_F(CareTest, verifyingFindsAnEntryWhoseOperatorIsNoText) {
    meddle("DROP TRIGGER journal_is_never_changed;"
           "UPDATE journal SET operator = CAST(x'b3' AS TEXT) WHERE seq = 3");
    const auto found = problems();
    ASSERT_FALSE(found.empty());
    EXPECT_NE(found.front().find("entry 3 was changed"), std::string::npos) << found.front();
}

TEST_F(CareTest, aStoppedRebuildChangesNothing) {
    std::vector<Draft> drafts;
    for (int number = 0; number < 300; ++number) {
        drafts.push_back(weighed("w" + std::to_string(number), 30 + number, "A101", 5'000'000));
    }
    ASSERT_EQ(m_store->append(drafts).outcome, Outcome::recorded);
    int asked = 0;
    const auto stopped = m_store->rebuild([&](std::int64_t done, std::int64_t total) {
        EXPECT_LE(done, total);
        ++asked;
        return false;
    });
    EXPECT_FALSE(stopped);
    EXPECT_EQ(asked, 1);
    EXPECT_TRUE(problems().empty());
}

// Making the indexes is one long statement of SQLite: it is asked within it.
TEST_F(CareTest, aRebuildIsStoppedWhileItsIndexesAreMade) {
    std::vector<Draft> drafts;
    for (int number = 0; number < 1'500; ++number) {
        drafts.push_back(weighed("w" + std::to_string(number), 30 + number, "A101",
                                 number % 2 == 0 ? 4'000'000 : 5'000'000)); // each a leg to or from variance
    }
    ASSERT_EQ(m_store->append(drafts).outcome, Outcome::recorded);
    const std::string made = schemaOf(m_path);
    const std::string then = m_folder.file("then.tarebook");
    int atTheEnd = 0;
    const auto untilTheEnd = [&](std::int64_t done, std::int64_t total) {
        atTheEnd += done == total ? 1 : 0;
        return done < total;
    };
    const auto stopped = m_store->rebuild(untilTheEnd);
    ASSERT_FALSE(stopped);
    EXPECT_NE(stopped.error().text().find("nothing was changed"), std::string::npos);
    EXPECT_EQ(atTheEnd, 1) << "not asked again once it has ended";
    EXPECT_EQ(schemaOf(m_path), made);
    EXPECT_TRUE(problems().empty());
    ASSERT_EQ(m_store->append({registered("A103")}).outcome, Outcome::recorded);
    EXPECT_FALSE(writeEarlierBooks(m_path, 1'500, then, m_clock, untilTheEnd));
    EXPECT_EQ(atTheEnd, 2);
    EXPECT_FALSE(std::filesystem::exists(then));
    ASSERT_TRUE(m_store->rebuild([](std::int64_t, std::int64_t) { return true; }));
    EXPECT_TRUE(problems().empty());
}

// Making views anew leaves the orders of the legs out and makes them at the end: whatever becomes of it, the
// file has the tables and indexes that it had, and gets back what it lacked.
TEST_F(CareTest, makingViewsAnewLeavesTablesAndIndexesAsTheyWere) {
    const std::string made = schemaOf(m_path);
    EXPECT_NE(made.find("leg_by_source"), std::string::npos);
    std::vector<Draft> drafts;
    for (int number = 0; number < 300; ++number) {
        drafts.push_back(weighed("w" + std::to_string(number), 30 + number, "A101", 5'000'000));
    }
    ASSERT_EQ(m_store->append(drafts).outcome, Outcome::recorded);
    EXPECT_FALSE(m_store->rebuild([](std::int64_t, std::int64_t) { return false; }));
    EXPECT_EQ(schemaOf(m_path), made);
    ASSERT_TRUE(m_store->rebuild());
    EXPECT_EQ(schemaOf(m_path), made);
    const std::string then = m_folder.file("then.tarebook");
    ASSERT_TRUE(writeEarlierBooks(m_path, 4, then, m_clock, {}));
    EXPECT_EQ(schemaOf(then), made);
    meddle("DROP INDEX leg_by_target");
    ASSERT_TRUE(m_store->rebuild());
    EXPECT_EQ(schemaOf(m_path), made);
    EXPECT_TRUE(problems().empty());
}

TEST_F(CareTest, backsUpAndRestores) {
    const std::string backup = m_folder.file("backup.tarebook");
    ASSERT_TRUE(m_store->backup(backup));
    EXPECT_FALSE(m_store->backup(backup)); // never over a file
    const std::string headThen = m_store->headDigest();
    ASSERT_EQ(m_store->append({registered("A103")}).outcome, Outcome::recorded);
    m_store.reset();
    std::ofstream(m_path, std::ios::in | std::ios::binary).seekp(4'096).write("rubbish", 7);
    const auto restored = restoreBackup(backup, m_path, m_clock);
    ASSERT_TRUE(restored) << restored.error().text();
    EXPECT_TRUE(std::filesystem::exists(m_path + ".before-restore-1"));
    const auto again = Store::open(m_path, m_clock);
    ASSERT_TRUE(again.store);
    EXPECT_EQ(again.store->headDigest(), headThen);
    ASSERT_TRUE(restoreBackup(backup, m_path, m_clock));
    EXPECT_TRUE(std::filesystem::exists(m_path + ".before-restore-2"));
}

TEST_F(CareTest, aDamagedBackupIsNotPutInPlace) {
    const std::string backup = m_folder.file("backup.tarebook");
    ASSERT_TRUE(m_store->backup(backup));
    const std::string head = m_store->headDigest();
    std::filesystem::resize_file(backup, std::filesystem::file_size(backup) - 4'096);
    EXPECT_FALSE(restoreBackup(backup, m_path, m_clock));
    EXPECT_EQ(m_store->headDigest(), head);
    EXPECT_FALSE(std::filesystem::exists(m_path + ".before-restore-1"));
}

TEST_F(CareTest, aSecondObjectSeesWhatTheFirstWrote) {
    auto second = Store::open(m_path, m_clock).store;
    ASSERT_TRUE(second);
    const std::int64_t before = second->dataVersion();
    EXPECT_EQ(second->dataVersion(), before);
    ASSERT_EQ(m_store->append({registered("A103")}).outcome, Outcome::recorded);
    EXPECT_NE(second->dataVersion(), before);
    EXPECT_EQ(second->fleet({}).value().size(), 3U);
    ASSERT_EQ(second->append({registered("A104")}).outcome, Outcome::recorded);
    EXPECT_EQ(m_store->headSeq(), 6);
    EXPECT_EQ(m_store->headDigest(), second->headDigest());
    EXPECT_TRUE(problems().empty());
}
