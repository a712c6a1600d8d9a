// Who did it: signing in, waiting after wrong tries, what a role may write, two programs at once.
#include <fstream>
#include <sstream>

#include <gtest/gtest.h>
#include <sqlite3.h>
#include <sys/stat.h>

#include "core/store/migration.h"
#include "core/store/store.h"
#include "tests/store/sample_drafts.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

const std::string kWords = "four quiet blue valves";
const std::string kOther = "a heel of nine pounds";

class OperatorsTest : public testing::Test {
protected:
    void SetUp() override {
        auto opened = Store::create(m_path, m_clock);
        ASSERT_TRUE(opened.store) << opened.error.text();
        m_store = std::move(opened.store);
        ASSERT_EQ(m_store->append({registered("A101"), registered("A102")}).outcome, Outcome::recorded);
    }
    [[nodiscard]] std::unique_ptr<Store> again() const { return Store::open(m_path, m_clock).store; }

    Draft by(const std::string& name, Draft draft) {
        draft.operatorName = name;
        draft.id = fmt::format("{}-{}", draft.id, ++m_ids);
        return draft;
    }
    AppendAnswer set(Store& store, const std::string& by_, const std::string& name, const std::string& role,
                     const std::string& passphrase = {}) {
        nlohmann::json body{{"name", name}, {"role", role}};
        if (!passphrase.empty()) {
            body["passphrase"] = "set";
        }
        return store.appendOperator(by(by_, draft("o", 100, EntryKind::operatorSet, body)), passphrase);
    }
    /// A manager, signed in.
    void beginWithManager() {
        ASSERT_EQ(set(*m_store, "login", "PAT KESTREL", "manager", kWords).outcome, Outcome::recorded);
        ASSERT_TRUE(m_store->signIn("PAT KESTREL", kWords, m_clock.now()));
    }
    void add(const std::string& name, const std::string& role) {
        const auto answer = set(*m_store, "PAT KESTREL", name, role, kOther);
        ASSERT_EQ(answer.outcome, Outcome::recorded) << answer.error.text();
    }
    static void expectRecorded(const AppendAnswer& answer) {
        EXPECT_EQ(answer.outcome, Outcome::recorded) << answer.error.text();
    }
    static void expectRefused(const AppendAnswer& answer, const std::string& part) {
        EXPECT_EQ(answer.outcome, Outcome::notRecorded);
        EXPECT_NE(answer.error.text().find(part), std::string::npos) << answer.error.text();
    }
    static void meddle(const std::string& path, const std::string& sql) {
        sqlite3* handle = nullptr;
        sqlite3_open(path.c_str(), &handle);
        EXPECT_EQ(sqlite3_exec(handle, sql.c_str(), nullptr, nullptr, nullptr), SQLITE_OK);
        sqlite3_close(handle);
    }
    static unsigned modeOf(const std::string& path) {
        struct stat its {};
        return ::stat(path.c_str(), &its) == 0 ? its.st_mode & 0777U : 0U;
    }

    TempFolder m_folder{TempFolder::Where::memory};
    std::string m_path = m_folder.file("shop.tarebook");
    SetClock m_clock{at(10'000)};
    int m_ids = 0;
    std::unique_ptr<Store> m_store;
};

} // namespace

TEST_F(OperatorsTest, AShopWithoutOperatorsAsksNobody) {
    EXPECT_FALSE(m_store->needsSignIn());
    EXPECT_TRUE(m_store->operators().value().empty());
    expectRecorded(m_store->append({by("anybody", weighed("w", 5, "A101", 0))}));
    EXPECT_FALSE(m_store->signIn("anybody", kWords, m_clock.now()));
}

TEST_F(OperatorsTest, TheFirstIsAManagerAndFromThenOnEveryEntryIsSigned) {
    expectRefused(set(*m_store, "login", "PAT KESTREL", "storekeeper", kWords), "must be a manager");
    expectRefused(set(*m_store, "login", "PAT KESTREL", "manager"), "passphrase");
    expectRefused(set(*m_store, "login", "PAT KESTREL", "manager", "short"), "8 characters");
    expectRecorded(set(*m_store, "login", "PAT KESTREL", "manager", kWords));
    EXPECT_TRUE(m_store->needsSignIn());
    expectRefused(m_store->append({by("PAT KESTREL", weighed("w", 5, "A101", 0))}), "nobody is signed in");
    EXPECT_FALSE(m_store->signIn("PAT KESTREL", kOther, m_clock.now()));
    ASSERT_TRUE(m_store->signIn("PAT KESTREL", kWords, m_clock.now()));
    EXPECT_FALSE(m_store->needsSignIn());
    expectRefused(m_store->append({by("ROBIN ALDER", weighed("w", 5, "A101", 0))}),
                  "PAT KESTREL is signed in");
    const auto answer = m_store->append({by("PAT KESTREL", weighed("w", 5, "A101", 0))});
    expectRecorded(answer);
    EXPECT_EQ(m_store->entry(answer.entries.front()).value().operatorName, "PAT KESTREL");
    m_store->signOut();
    EXPECT_TRUE(m_store->needsSignIn());
}

TEST_F(OperatorsTest, FiveWrongTriesThenWaitLongerAndLonger) {
    beginWithManager();
    m_store->signOut();
    const auto wrong = [&] { return m_store->signIn("PAT KESTREL", "wrong wrong", m_clock.now()).error(); };
    for (int left = 4; left >= 1; --left) {
        EXPECT_EQ(wrong().right,
                  fmt::format("{} {} left before you must wait", left, left == 1 ? "try" : "tries"));
    }
    // 30 s after the fifth, then twice as long each time, an hour at most.
    for (const std::int64_t wait : {30, 60, 120, 240, 480, 960, 1920, 3600, 3600}) {
        EXPECT_NE(wrong().text().find("try again in"), std::string::npos);
        m_clock.set(m_clock.now().plusSeconds(wait - 1));
        m_store = again(); // the file remembers
        const auto early = m_store->signIn("PAT KESTREL", kWords, m_clock.now());
        ASSERT_FALSE(early) << "no passphrase is looked at before " << wait << " seconds are over";
        EXPECT_NE(early.error().text().find("try again in 1 second"), std::string::npos)
            << early.error().text();
        m_clock.set(m_clock.now().plusSeconds(1));
    }
    EXPECT_TRUE(m_store->signIn("PAT KESTREL", kWords, m_clock.now()));
    EXPECT_EQ(m_store->operators().value().front().wrongTries, 0);
}

TEST_F(OperatorsTest, AClockThatIsSetBackDoesNotShortenTheWait) {
    beginWithManager();
    for (int tries = 0; tries < 5; ++tries) {
        EXPECT_FALSE(m_store->signIn("PAT KESTREL", "wrong wrong", m_clock.now()));
    }
    const Instant earlier = m_clock.now().plusSeconds(-86'400);
    EXPECT_FALSE(m_store->signIn("PAT KESTREL", kWords, earlier));
    EXPECT_FALSE(m_store->signIn("PAT KESTREL", kWords, earlier.plusSeconds(29)));
    // And a clock that once ran ahead locks nobody out for long.
    EXPECT_TRUE(m_store->signIn("PAT KESTREL", kWords, earlier.plusSeconds(30)));
}

TEST_F(OperatorsTest, ARoleTakenAwayByAnotherProgramCountsAtOnce) {
    beginWithManager();
    add("ROBIN ALDER", "storekeeper");
    const auto other = again();
    ASSERT_TRUE(other->signIn("ROBIN ALDER", kOther, m_clock.now()));
    expectRecorded(other->append({by("ROBIN ALDER", registered("B1", 30))}));
    expectRecorded(set(*m_store, "PAT KESTREL", "ROBIN ALDER", "technician"));
    expectRefused(other->append({by("ROBIN ALDER", registered("B2", 30))}),
                  "ROBIN ALDER, technician, may not");
    EXPECT_EQ(other->signedIn()->role, Role::technician);
    expectRecorded(set(*m_store, "PAT KESTREL", "ROBIN ALDER", "storekeeper", "another passphrase"));
    EXPECT_TRUE(other->needsSignIn());
    expectRefused(other->append({by("ROBIN ALDER", registered("B2", 30))}), "sign in again");
    ASSERT_TRUE(other->signIn("ROBIN ALDER", "another passphrase", m_clock.now()));
    expectRecorded(set(*m_store, "PAT KESTREL", "ROBIN ALDER", "none"));
    expectRefused(other->append({by("ROBIN ALDER", registered("B2", 30))}), "sign in again");
    EXPECT_FALSE(other->signIn("ROBIN ALDER", "another passphrase", m_clock.now()));
    EXPECT_EQ(other->headSeq(), m_store->headSeq());
}

TEST_F(OperatorsTest, SomebodyIsAlwaysAManager) {
    beginWithManager();
    expectRefused(set(*m_store, "PAT KESTREL", "PAT KESTREL", "auditor"), "nobody would be a manager");
    expectRefused(set(*m_store, "PAT KESTREL", "PAT KESTREL", "none"), "nobody would be a manager");
    add("ROBIN ALDER", "manager");
    expectRecorded(set(*m_store, "PAT KESTREL", "PAT KESTREL", "none"));
    EXPECT_TRUE(m_store->needsSignIn()) << "who has gone is signed out";
}

TEST_F(OperatorsTest, EachSetsTheirOwnPassphraseAndNoOther) {
    beginWithManager();
    add("ROBIN ALDER", "storekeeper");
    ASSERT_TRUE(m_store->signIn("ROBIN ALDER", kOther, m_clock.now()));
    expectRefused(set(*m_store, "ROBIN ALDER", "ROBIN ALDER", "manager", "another passphrase"), "may not");
    expectRefused(set(*m_store, "ROBIN ALDER", "PAT KESTREL", "manager", "another passphrase"), "may not");
    expectRefused(set(*m_store, "ROBIN ALDER", "ROBIN ALDER", "none"), "may not");
    expectRecorded(set(*m_store, "ROBIN ALDER", "ROBIN ALDER", "storekeeper", "another passphrase"));
    EXPECT_FALSE(m_store->needsSignIn()) << "who changes their own stays signed in";
    EXPECT_FALSE(again()->signIn("ROBIN ALDER", kOther, m_clock.now()));
    EXPECT_TRUE(again()->signIn("ROBIN ALDER", "another passphrase", m_clock.now()));
}

TEST_F(OperatorsTest, ATechnicianWritesTheirOwn) {
    beginWithManager();
    add("TOVE LIND", "technician");
    const auto out = [&](const std::string& who, const char* serial, const std::string& person) {
        return by(who, draft("h", 20, EntryKind::handedOut,
                             {{"serial", serial}, {"person", person}, {"job", "J-7"}}));
    };
    expectRecorded(m_store->append({out("PAT KESTREL", "A102", "NILS BERG")}));
    const Sequence managers = m_store->headSeq();
    ASSERT_TRUE(m_store->signIn("TOVE LIND", kOther, m_clock.now()));
    expectRefused(m_store->append({out("TOVE LIND", "A101", "NILS BERG")}), "for NILS BERG");
    expectRecorded(m_store->append({out("TOVE LIND", "A101", "TOVE LIND")}));
    const Sequence own = m_store->headSeq();
    expectRecorded(m_store->append({by("TOVE LIND", weighed("w", 25, "A101", 0))}));
    expectRefused(m_store->append({by("TOVE LIND", weighed("w", 25, "A102", 0))}), "with NILS BERG");
    expectRefused(m_store->append({by("TOVE LIND", moved("m", 26, EntryKind::decanted, "cylinder:A102",
                                                         "cylinder:A101", 1'000'000))}),
                  "with NILS BERG");
    expectRefused(m_store->append({by("TOVE LIND", draft("s", 27, EntryKind::settingSet,
                                                         {{"key", "name"}, {"value", "Mine"}}))}),
                  "a manager may");
    expectRefused(m_store->append({by("TOVE LIND", reversal("u", 28, managers))}), "made by PAT KESTREL");
    expectRecorded(m_store->append({by("TOVE LIND", reversal("u", 28, own))}));
}

TEST_F(OperatorsTest, WhatARoleMayNotWriteItMayNotReverse) {
    beginWithManager();
    add("ROBIN ALDER", "storekeeper");
    expectRecorded(m_store->append({by(
        "PAT KESTREL", draft("s", 27, EntryKind::settingSet, {{"key", "name"}, {"value", "Larkspur"}}))}));
    const Sequence setting = m_store->headSeq();
    expectRefused(m_store->append({by("PAT KESTREL", reversal("u", 28, setting - 1))}), "who may sign in");
    ASSERT_TRUE(m_store->signIn("ROBIN ALDER", kOther, m_clock.now()));
    expectRefused(m_store->append({by("ROBIN ALDER", reversal("u", 28, setting))}), "a manager may");
    expectRecorded(m_store->append({by("ROBIN ALDER", reversal("u", 28, 1))}));
}

TEST_F(OperatorsTest, AnAuditorsFileIsOpenForReadingOnly) {
    beginWithManager();
    add("IDA SHAW", "auditor");
    ASSERT_TRUE(m_store->signIn("IDA SHAW", kOther, m_clock.now()));
    EXPECT_TRUE(m_store->readOnly());
    EXPECT_EQ(m_store->fleetCount(), 2);
    expectRefused(m_store->append({by("IDA SHAW", weighed("w", 5, "A101", 0))}), "only reads");
    EXPECT_FALSE(m_store->rebuild());
    // A wrong try of the next one counts, and the auditor still reads only.
    EXPECT_FALSE(m_store->signIn("PAT KESTREL", kOther, m_clock.now()));
    EXPECT_TRUE(m_store->readOnly());
    EXPECT_EQ(m_store->operators().value().back().wrongTries, 1);
    ASSERT_TRUE(m_store->signIn("PAT KESTREL", kWords, m_clock.now()));
    expectRecorded(m_store->append({by("PAT KESTREL", weighed("w", 5, "A101", 0))}));
}

TEST_F(OperatorsTest, NoSecretStandsInTheFileOrTheJournal) {
    beginWithManager();
    std::ifstream stream(m_path, std::ios::binary);
    std::ostringstream bytes;
    bytes << stream.rdbuf();
    EXPECT_EQ(bytes.str().find(kWords), std::string::npos);
    EXPECT_NE(bytes.str().find("$argon2id$"), std::string::npos);
    std::string journal;
    ASSERT_TRUE(m_store->eachEntry([&](const Entry& entry) {
        journal += exportLine(entry);
        return true;
    }));
    EXPECT_EQ(journal.find("argon2"), std::string::npos);
    EXPECT_NE(journal.find(R"("body":{"name":"PAT KESTREL","passphrase":"set","role":"manager"})"),
              std::string::npos);
}

TEST_F(OperatorsTest, VerifyFindsARoleThatTheJournalDoesNotKnow) {
    beginWithManager();
    add("ROBIN ALDER", "storekeeper");
    EXPECT_TRUE(m_store->verify().value().problems.empty());
    ASSERT_TRUE(m_store->rebuild());
    EXPECT_TRUE(m_store->verify().value().problems.empty());
    meddle(m_path, "UPDATE operator SET role = 'manager' WHERE name = 'ROBIN ALDER'");
    const auto changed = m_store->verify().value().problems;
    ASSERT_EQ(changed.size(), 1U);
    EXPECT_EQ(changed.front(), "operator ROBIN ALDER: the file says manager, the journal says storekeeper");
    meddle(m_path, "DELETE FROM operator WHERE name = 'ROBIN ALDER'");
    EXPECT_EQ(m_store->verify().value().problems.size(), 1U);
}

TEST_F(OperatorsTest, TheFileItsJournalAndItsCopiesAreTheOwnersAlone) {
    EXPECT_EQ(modeOf(m_path), 0600U);
    unsigned journal = 0;
    const auto look = [&](std::int64_t, std::int64_t) {
        journal = modeOf(m_path + "-journal");
        return true;
    };
    ASSERT_EQ(m_store->append({registered("B1")}, look).outcome, Outcome::recorded);
    EXPECT_EQ(journal, 0600U);
    ASSERT_TRUE(m_store->backup(m_folder.file("copy.tarebook")));
    EXPECT_EQ(modeOf(m_folder.file("copy.tarebook")), 0600U);
    m_store.reset();
    ASSERT_TRUE(restoreBackup(m_folder.file("copy.tarebook"), m_path, m_clock));
    EXPECT_EQ(modeOf(m_path), 0600U);
    const std::string old = m_folder.file("old.tarebook");
    std::filesystem::copy_file(std::string(TAREBOOK_TEST_DIR) + "/store/data/v1.tarebook", old);
    ASSERT_TRUE(Store::open(old, m_clock).store);
    EXPECT_EQ(modeOf(old + ".before-v" + std::to_string(newestVersion())), 0600U);
}
