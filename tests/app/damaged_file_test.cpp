// Shop files that are not as they should be: damaged, cut off, another program's, too new, not to be written,
// in use. Each is a process with a clear message and the exit code of docs/command-line.md: 3 where the file
// is damaged or locked, 1 where it is the wrong file or may not be written.
#include <csignal>

#include <sqlite3.h>

#include "tests/app/cylinders_file.h"

using namespace tarebook::tests;

namespace {

constexpr int kCylinders = 60;

class DamagedFileTest : public CylindersFileTest {
protected:
    void SetUp() override {
        CylindersFileTest::SetUp();
        makeFile(kCylinders);
    }
    /// Runs SQL as another program would, without our settings.
    void meddle(const std::string& name, const std::string& sql) const {
        sqlite3* handle = nullptr;
        sqlite3_open(file(name).c_str(), &handle);
        EXPECT_EQ(sqlite3_exec(handle, sql.c_str(), nullptr, nullptr, nullptr), SQLITE_OK)
            << sqlite3_errmsg(handle);
        sqlite3_close(handle);
    }
    [[nodiscard]] std::int64_t ask(const std::string& sql) const {
        sqlite3* handle = nullptr;
        sqlite3_stmt* statement = nullptr;
        sqlite3_open(file("s").c_str(), &handle);
        sqlite3_prepare_v2(handle, sql.c_str(), -1, &statement, nullptr);
        const std::int64_t answer =
            sqlite3_step(statement) == SQLITE_ROW ? sqlite3_column_int64(statement, 0) : -1;
        sqlite3_finalize(statement);
        sqlite3_close(handle);
        return answer;
    }
    /// Overwrites the root page of a table, as a bad block of the disk would.
    void spoil(const std::string& table) const {
        const std::int64_t page = ask("SELECT rootpage FROM sqlite_schema WHERE name = '" + table + "'");
        const std::int64_t size = ask("PRAGMA page_size");
        ASSERT_GT(page, 1);
        std::string bytes = read(file("s"));
        for (std::int64_t place = (page - 1) * size; place < page * size; ++place) {
            bytes[static_cast<std::size_t>(place)] = static_cast<char>(place * 31 + 7);
        }
        write("s", bytes);
    }
    /// Nothing may be written into such a file: its bytes stay.
    void expectUntouchedBy(const std::string& arguments, int code) {
        const std::string before = read(file("s"));
        const Answer answer = run(arguments);
        EXPECT_EQ(answer.code, code) << arguments << "\n" << answer.err;
        EXPECT_FALSE(answer.err.empty());
        EXPECT_EQ(read(file("s")), before) << arguments;
    }
};

constexpr const char* kRegister =
    "register s NEW1 --specification DOT-4BA400 --water-capacity '47.7 lb' --tare '27 lb' --manufactured "
    "2024-01";

} // namespace

TEST_F(DamagedFileTest, AChangedEntryIsFoundByVerify) {
    // One byte of a body in the middle of the journal: the file opens, the chain tells.
    std::string bytes = read(file("s"));
    const std::size_t place = bytes.find("\"serial\":\"C030\"");
    ASSERT_NE(place, std::string::npos);
    bytes[place + 11] = '9';
    write("s", bytes);
    const Answer verified = run("verify s");
    EXPECT_EQ(verified.code, 3);
    EXPECT_TRUE(holds(verified.err, "was changed: its digest is another")) << verified.err;
    EXPECT_EQ(run("verify s --json").json()["ok"], false);
}

TEST_F(DamagedFileTest, ASpoiledHeadIsReadOnlyAndNamed) {
    good("copies s --keep");
    meddle("s", "DROP TRIGGER journal_is_never_changed;"
                "UPDATE journal SET operator = 'Nobody' WHERE seq = (SELECT max(seq) FROM journal);"
                "CREATE TRIGGER journal_is_never_changed BEFORE UPDATE ON journal\n"
                "BEGIN SELECT RAISE(ABORT, 'the journal is never changed'); END");
    const Answer fleet = run("fleet s --json");
    EXPECT_EQ(fleet.code, 3);
    EXPECT_TRUE(holds(fleet.err, "does not fit the chain of the journal")) << fleet.err;
    EXPECT_TRUE(holds(fleet.err, "restore a backup")) << fleet.err;
    EXPECT_TRUE(holds(fleet.err, "tarebookctl restore s.copies/")) << "the way to the copy: " << fleet.err;
    EXPECT_EQ(fleet.json().size(), static_cast<std::size_t>(kCylinders));
    EXPECT_EQ(run("card s C001 --json").json()["serial"], "C001");
    expectUntouchedBy(kRegister, 3);
    EXPECT_TRUE(holds(run(kRegister).err, "nothing was written")) << run(kRegister).err;
}

TEST_F(DamagedFileTest, OtherTablesThanItShouldHaveAreNamed) {
    meddle("s", "DROP TRIGGER journal_is_never_cut");
    const Answer card = run("card s C001");
    EXPECT_EQ(card.code, 3);
    EXPECT_TRUE(holds(card.err, "other tables or triggers than it should")) << card.err;
    EXPECT_TRUE(holds(card.out, "C001"));
    expectUntouchedBy(kRegister, 3);
}

TEST_F(DamagedFileTest, ASpoiledViewLeavesTheJournalToBeRead) {
    spoil("cylinder");
    const Answer fleet = run("fleet s");
    EXPECT_EQ(fleet.code, 3);
    EXPECT_TRUE(holds(fleet.err, "damaged")) << fleet.err;
    EXPECT_TRUE(holds(fleet.err, "backup")) << fleet.err;
    const Answer journal = run("journal s");
    EXPECT_GE(std::count(journal.out.begin(), journal.out.end(), '\n'), kCylinders);
    const Answer verified = run("verify s");
    EXPECT_EQ(verified.code, 3);
    EXPECT_TRUE(holds(verified.err, "damaged") || holds(verified.err, "integrity")) << verified.err;
    expectUntouchedBy(kRegister, 3);
}

TEST_F(DamagedFileTest, ACutOffFileIsReadAsFarAsItGoes) {
    const auto whole = std::filesystem::file_size(file("s"));
    const std::string bytes = read(file("s"));
    int answered = 0;
    for (const int eighths : {7, 6, 4, 2}) {
        write("s", bytes.substr(0, whole * static_cast<std::size_t>(eighths) / 8));
        for (const char* verb : {"fleet s", "journal s", "card s C001", "alerts s", "verify s"}) {
            const Answer answer = run(verb);
            EXPECT_EQ(answer.code, 3) << verb << " " << eighths << answer.err;
            EXPECT_TRUE(holds(answer.err, "damaged")) << answer.err;
            EXPECT_TRUE(holds(answer.err, "backup")) << answer.err;
            answered += holds(answer.out, "C001") ? 1 : 0;
        }
        expectUntouchedBy(kRegister, 3);
    }
    EXPECT_GT(answered, 0);
}

TEST_F(DamagedFileTest, ADamagedBackupDoesNotTakeThePlaceOfAShop) {
    good("backup s copy");
    const std::string bytes = read(file("copy"));
    const std::string shop = read(file("s"));
    for (const std::string& wrong : {bytes.substr(0, bytes.size() - 4'096), bytes.substr(0, 5'000)}) {
        write("copy", wrong);
        const Answer answer = run("restore copy s");
        EXPECT_EQ(answer.code, 3) << answer.err;
        EXPECT_TRUE(holds(answer.err, "use another backup") || holds(answer.err, "restore a backup"))
            << answer.err;
        EXPECT_EQ(read(file("s")), shop);
    }
    write("copy", bytes);
    good("restore copy s");
}

TEST_F(DamagedFileTest, NoDamageMakesItCrash) {
    const std::string bytes = read(file("s"));
    unsigned random = 20260914;
    for (int round = 0; round < 12; ++round) {
        std::string spoilt = bytes;
        for (int byte = 0; byte < 200; ++byte) {
            random = random * 1'103'515'245U + 12'345U;
            spoilt[100 + (random >> 8U) % (spoilt.size() - 100)] = static_cast<char>(random >> 3U);
        }
        write("s", spoilt);
        for (const char* verb : {"verify s", "fleet s", "journal s"}) {
            const Answer answer = run(verb);
            EXPECT_TRUE(answer.code == 0 || answer.code == 1 || answer.code == 3)
                << verb << " " << answer.code << answer.err;
            EXPECT_EQ(answer.code == 0, answer.err.empty()) << verb << answer.err;
        }
        EXPECT_NE(run("verify s").code, 0);
    }
}

TEST_F(DamagedFileTest, AFileOfAnotherProgramOrVersion) {
    meddle("other", "CREATE TABLE recipe(name TEXT)");
    const Answer other = run("fleet other");
    EXPECT_EQ(other.code, 1);
    EXPECT_TRUE(holds(other.err, "'other' is a file of another program; choose a shop file")) << other.err;
    write("letter", std::string(5'000, 'x'));
    const Answer letter = run("fleet letter");
    EXPECT_EQ(letter.code, 1);
    EXPECT_TRUE(holds(letter.err, "'letter' is no shop file")) << letter.err;
    write("empty", "");
    EXPECT_TRUE(holds(run("fleet empty").err, "is empty: it was never finished; create it anew"));
    meddle("s", "PRAGMA user_version=99");
    const Answer newer = run("fleet s");
    EXPECT_EQ(newer.code, 1);
    EXPECT_TRUE(holds(newer.err, "is of version 99, this program knows")) << newer.err;
    EXPECT_TRUE(holds(newer.err, "use the newer program")) << newer.err;
    expectUntouchedBy(kRegister, 1);
}

TEST_F(DamagedFileTest, AFileThatMayNotBeWritten) {
    namespace fs = std::filesystem;
    fs::permissions(file("s"), fs::perms::owner_read | fs::perms::group_read | fs::perms::others_read);
    fs::permissions(m_folder, fs::perms::all);
    if (::geteuid() == 0) {
        // Root may write whatever the permissions say.
        if (std::system("setpriv --reuid=65534 --regid=65534 --clear-groups true 2>/dev/null") != 0) {
            GTEST_SKIP() << "cannot give up the rights of root here";
        }
        m_before = "setpriv --reuid=65534 --regid=65534 --clear-groups";
    }
    const Answer fleet = good("fleet s --json");
    EXPECT_EQ(fleet.json().size(), static_cast<std::size_t>(kCylinders));
    EXPECT_TRUE(fleet.err.empty()) << fleet.err;
    good("card s C001");
    EXPECT_EQ(run("verify s").code, 0);
    const Answer refused = run(kRegister);
    EXPECT_EQ(refused.code, 1);
    EXPECT_TRUE(holds(refused.err, "reading only: nothing was written")) << refused.err;
    expectUntouchedBy(kRegister, 1);
}

TEST_F(DamagedFileTest, AFileThatAnotherProcessHolds) {
    int ready[2];
    ASSERT_EQ(pipe(ready), 0);
    const pid_t holder = fork();
    if (holder == 0) {
        sqlite3* handle = nullptr;
        sqlite3_open(file("s").c_str(), &handle);
        const bool held = sqlite3_exec(handle, "BEGIN EXCLUSIVE", nullptr, nullptr, nullptr) == SQLITE_OK;
        (void)!::write(ready[1], held ? "+" : "-", 1);
        ::pause();
        ::_exit(0);
    }
    char held = '-';
    ASSERT_EQ(::read(ready[0], &held, 1), 1);
    EXPECT_EQ(held, '+');
    const Answer fleet = run("fleet s");
    EXPECT_EQ(fleet.code, 3);
    EXPECT_TRUE(holds(fleet.err, "is in use by another program; wait until it is done")) << fleet.err;
    expectUntouchedBy(kRegister, 3);
    ::kill(holder, SIGKILL);
    ::waitpid(holder, nullptr, 0);
    ::close(ready[0]);
    ::close(ready[1]);
    good(kRegister);
}
