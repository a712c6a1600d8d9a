#include <fstream>

#include <gtest/gtest.h>
#include <sqlite3.h>

#include "core/store/migration.h"
#include "core/store/pragmas.h"
#include "core/store/store.h"
#include "tests/store/sample_drafts.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class OpeningTest : public testing::Test {
protected:
    /// A shop of some entries, closed again.
    void SetUp() override {
        const auto opened = Store::create(m_path, m_clock);
        ASSERT_TRUE(opened.store) << opened.error.text();
        std::vector<Draft> drafts = {registered("A101")};
        for (int number = 0; number < 40; ++number) {
            drafts.push_back(moved("r" + std::to_string(number), number, EntryKind::recovered,
                                   "system:HARBOR/DOCK-1", "cylinder:A101", 100'000 + number, "R-22"));
        }
        ASSERT_EQ(opened.store->append(drafts).outcome, Outcome::recorded);
    }

    /// Runs SQL as another program would, without our settings.
    static int meddle(const std::string& path, const std::string& sql) {
        sqlite3* handle = nullptr;
        sqlite3_open(path.c_str(), &handle);
        const int code = sqlite3_exec(handle, sql.c_str(), nullptr, nullptr, nullptr);
        sqlite3_close(handle);
        return code;
    }

    OpenProblem problem(const std::string& path, bool readOnly = false) {
        const auto opened = Store::open(path, m_clock, readOnly);
        EXPECT_EQ(opened.store == nullptr, opened.problem != OpenProblem::none);
        EXPECT_EQ(opened.store == nullptr, !opened.error.wrong.empty());
        return opened.problem;
    }

    TempFolder m_folder;
    std::string m_path = m_folder.file("shop.tarebook");
    SetClock m_clock{at(10'000)};
};

} // namespace

TEST_F(OpeningTest, opensWhatItMade) {
    const auto opened = Store::open(m_path, m_clock);
    ASSERT_TRUE(opened.store) << opened.error.text();
    EXPECT_EQ(opened.store->headSeq(), 41);
    EXPECT_EQ(opened.store->path(), m_path);
}

TEST_F(OpeningTest, refusesToCreateOverAFile) {
    EXPECT_FALSE(Store::create(m_path, m_clock).store);
    EXPECT_EQ(problem(m_path), OpenProblem::none);
}

TEST_F(OpeningTest, tellsWhatIsWrong) {
    EXPECT_EQ(problem(m_folder.file("nowhere.tarebook")), OpenProblem::missing);
    const std::string text = m_folder.file("letter.txt");
    std::ofstream(text) << std::string(5'000, 'x');
    EXPECT_EQ(problem(text), OpenProblem::notOurs);
    const std::string other = m_folder.file("other.db");
    meddle(other, "CREATE TABLE recipe(name TEXT)");
    EXPECT_EQ(problem(other), OpenProblem::notOurs);
    meddle(m_path, "PRAGMA user_version=99");
    EXPECT_EQ(problem(m_path), OpenProblem::newer);
}

TEST_F(OpeningTest, anEmptyFileIsAnUnfinishedOne) {
    const std::string empty = m_folder.file("empty.tarebook");
    std::ofstream(empty).flush();
    EXPECT_EQ(problem(empty), OpenProblem::missing);
    EXPECT_TRUE(Store::create(empty, m_clock).store);
}

TEST_F(OpeningTest, aShorterFileIsDamaged) {
    std::filesystem::resize_file(m_path, std::filesystem::file_size(m_path) / 2);
    EXPECT_EQ(problem(m_path), OpenProblem::damaged);
}

TEST_F(OpeningTest, aMissingGuardIsDamage) {
    ASSERT_EQ(meddle(m_path, "DROP TRIGGER journal_is_never_cut"), SQLITE_OK);
    EXPECT_EQ(problem(m_path), OpenProblem::damaged);
    // To save what is there, reading is allowed.
    const auto saved = Store::open(m_path, m_clock, true);
    ASSERT_TRUE(saved.store);
    EXPECT_EQ(saved.store->entries(1, 99).value().size(), 41U);
    EXPECT_EQ(saved.store->append({registered("A102")}).outcome, Outcome::notRecorded);
}

TEST_F(OpeningTest, aRecordThatCannotBeReadIsDamage) {
    ASSERT_EQ(meddle(m_path, "INSERT INTO record(kind, key, body, seq) VALUES('person', 'X', '{', 1)"),
              SQLITE_OK);
    const auto opened = Store::open(m_path, m_clock);
    ASSERT_TRUE(opened.store) << opened.error.text();
    EXPECT_FALSE(opened.store->recordsBetween("person", "certificate_expires", "0", "9"));
    EXPECT_EQ(opened.store->trouble(), OpenProblem::damaged);
    EXPECT_TRUE(opened.store->recordsBetween("batch", "status", "a", "z"));
    EXPECT_FALSE(opened.store->recordMoments("person", "certificate_expires", "{"));
}

TEST_F(OpeningTest, aRewrittenEntryIsDamage) {
    ASSERT_EQ(meddle(m_path, "DROP TRIGGER journal_is_never_changed;"
                             "UPDATE journal SET operator = 'Nobody' WHERE seq = 41;"),
              SQLITE_OK);
    ASSERT_EQ(meddle(m_path, "CREATE TRIGGER journal_is_never_changed BEFORE UPDATE ON journal\n"
                             "BEGIN SELECT RAISE(ABORT, 'the journal is never changed'); END"),
              SQLITE_OK);
    EXPECT_EQ(problem(m_path), OpenProblem::damaged);
}

// Before texts with control characters were refused, they were kept: such a journal opens, and its views are
// made anew, with the text as it was.
TEST_F(OpeningTest, aTextOfAnEarlierVersionIsReadAsItIs) {
    const std::string text = "C-7\x1b[31m\nsecond line";
    Entry last;
    {
        const auto opened = Store::open(m_path, m_clock);
        ASSERT_TRUE(opened.store);
        last = opened.store->entry(41).value();
    }
    last.body["note"] = text;
    const std::string source = "system:HARBOR/DOCK\xE2\x80\xA8\xC2\x85";
    last.body["from"] = source;
    const std::string change = "UPDATE journal SET body = '" + last.body.dump() + "', digest = '" +
                               digestOf(last) + "' WHERE seq = 41;";
    ASSERT_EQ(meddle(m_path, "DROP TRIGGER journal_is_never_changed;" + change), SQLITE_OK);
    ASSERT_EQ(meddle(m_path, "CREATE TRIGGER journal_is_never_changed BEFORE UPDATE ON journal\n"
                             "BEGIN SELECT RAISE(ABORT, 'the journal is never changed'); END"),
              SQLITE_OK);
    const auto opened = Store::open(m_path, m_clock);
    ASSERT_TRUE(opened.store) << opened.error.text();
    ASSERT_TRUE(opened.store->rebuild());
    EXPECT_EQ(opened.store->entry(41).value().body["note"], text);
    const auto legs = opened.store->legReader()->ofEntry(41);
    ASSERT_TRUE(legs);
    ASSERT_EQ(legs.value().size(), 1U);
    EXPECT_EQ(legs.value().front().source.text(), source);
    Draft again = last;
    again.id = "again";
    EXPECT_EQ(opened.store->append({again}).outcome, Outcome::notRecorded) << "a note is no name";
    again.body.erase("note");
    EXPECT_EQ(opened.store->append({again}).outcome, Outcome::recorded) << "the system is one of the books";
    again.id = "other";
    again.body["from"] = source + "\xC2\x85";
    EXPECT_EQ(opened.store->append({again}).outcome, Outcome::notRecorded) << "a new one is not";
}

TEST_F(OpeningTest, theJournalRefusesChangesFromOutside) {
    EXPECT_EQ(meddle(m_path, "UPDATE journal SET operator = 'Nobody'"), SQLITE_CONSTRAINT);
    EXPECT_EQ(meddle(m_path, "DELETE FROM journal WHERE seq = 41"), SQLITE_CONSTRAINT);
    const std::string copy =
        "SELECT 7, 'x', recorded, operator, occurred, zone, kind, body, previous, digest "
        "FROM journal WHERE seq = 7";
    EXPECT_EQ(meddle(m_path, "INSERT OR REPLACE INTO journal " + copy), SQLITE_CONSTRAINT);
    EXPECT_EQ(meddle(m_path,
                     "INSERT INTO journal(seq, id, recorded, operator, occurred, zone, kind, body, "
                     "previous, digest) SELECT 42, 'y', recorded, operator, occurred, zone, kind, body, "
                     "previous, digest FROM journal WHERE seq = 7"),
              SQLITE_CONSTRAINT);
    EXPECT_EQ(problem(m_path), OpenProblem::none);
}

TEST_F(OpeningTest, aFileInUseIsLocked) {
    sqlite3* handle = nullptr;
    sqlite3_open(m_path.c_str(), &handle);
    ASSERT_EQ(sqlite3_exec(handle, "BEGIN EXCLUSIVE", nullptr, nullptr, nullptr), SQLITE_OK);
    EXPECT_EQ(problem(m_path), OpenProblem::locked);
    sqlite3_close(handle);
    EXPECT_EQ(problem(m_path), OpenProblem::none);
}

TEST_F(OpeningTest, settingsArePutAndReadBack) {
    ASSERT_EQ(meddle(m_path, "PRAGMA journal_mode=WAL"), SQLITE_OK);
    EXPECT_EQ(problem(m_path), OpenProblem::none);
    Database database(m_path, Database::Mode::readOnly);
    Query mode(database, "PRAGMA journal_mode");
    ASSERT_TRUE(mode.step());
    EXPECT_EQ(mode.text(0), "delete");
}

TEST_F(OpeningTest, migratesStepByStepAfterACopy) {
    const int newest = newestVersion();
    std::vector<MigrationStep> steps(migrationSteps().begin(), migrationSteps().end());
    steps.push_back({newest + 1, "CREATE TABLE extra(name TEXT) STRICT"});
    steps.push_back({newest + 2, "ALTER TABLE extra ADD COLUMN note TEXT"});
    Database database(m_path, Database::Mode::readWrite);
    const auto migrated = migrate(database, m_path, steps, m_clock.now());
    ASSERT_TRUE(migrated);
    EXPECT_TRUE(migrated.value());
    EXPECT_EQ(userVersionOf(database), newest + 2);
    EXPECT_EQ(wholeNumber(database, "SELECT count(*) FROM migration", 0), newest + 2);
    EXPECT_EQ(problem(m_path), OpenProblem::newer);
    EXPECT_EQ(problem(m_path + ".before-v" + std::to_string(newest + 2)), OpenProblem::none);
    // A step that fails changes nothing.
    const std::vector<MigrationStep> broken = {
        {newest + 3, "CREATE TABLE more(name TEXT); CREATE TABLE extra(x)"}};
    EXPECT_THROW((void)migrate(database, m_path, broken, m_clock.now()), SqlFailure);
    EXPECT_EQ(userVersionOf(database), newest + 2);
    EXPECT_EQ(wholeNumber(database, "SELECT count(*) FROM sqlite_schema WHERE name = 'more'", 9), 0);
}

TEST_F(OpeningTest, aStepMayLeaveTheViewsAsTheyAre) {
    std::vector<MigrationStep> steps(migrationSteps().begin(), migrationSteps().end());
    steps.push_back({newestVersion() + 1, "CREATE INDEX more ON cylinder(net)", false});
    Database database(m_path, Database::Mode::readWrite);
    const auto migrated = migrate(database, m_path, steps, m_clock.now());
    ASSERT_TRUE(migrated);
    EXPECT_FALSE(migrated.value());
    EXPECT_EQ(userVersionOf(database), newestVersion() + 1);
    EXPECT_EQ(problem(m_path + ".before-v" + std::to_string(newestVersion() + 1)), OpenProblem::none);
}
