// Files that belong to entries: kept with their entry or not at all, once for the same bytes, found when they
// rot.
#include <sqlite3.h>

#include <filesystem>
#include <fstream>

#include <gtest/gtest.h>

#include "core/base/sha256.h"
#include "core/store/earlier_books.h"
#include "core/store/store.h"
#include "tests/store/sample_drafts.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

const std::string kTicket = "%PDF-1.4 a weight ticket with a nought " + std::string(1, '\0') + " in it";

Draft attachedTo(const std::string& id, Sequence entry, const std::string& bytes) {
    Draft made = draft(id, 100, EntryKind::attached,
                       {{"entry", entry},
                        {"name", "ticket.pdf"},
                        {"type", "application/pdf"},
                        {"size", bytes.size()},
                        {"sha256", sha256Hex(bytes)},
                        {"about", {"cylinder:A101"}}});
    made.file = bytes;
    return made;
}

class AttachmentTest : public testing::Test {
protected:
    void SetUp() override {
        m_store = Store::create(m_path, m_clock).store;
        ASSERT_TRUE(m_store);
        ASSERT_EQ(m_store->append({registered("A101")}).outcome, Outcome::recorded);
    }
    [[nodiscard]] std::vector<std::string> problems() const { return m_store->verify().value().problems; }
    /// What another hand does to the file.
    void meddle(const std::string& sql) {
        sqlite3* database = nullptr;
        ASSERT_EQ(sqlite3_open(m_path.c_str(), &database), SQLITE_OK);
        ASSERT_EQ(sqlite3_exec(database, sql.c_str(), nullptr, nullptr, nullptr), SQLITE_OK)
            << sqlite3_errmsg(database);
        sqlite3_close(database);
    }

    TempFolder m_folder;
    SetClock m_clock{at(20'000)};
    std::string m_path = m_folder.file("shop.tarebook");
    std::unique_ptr<Store> m_store;
};

} // namespace

TEST_F(AttachmentTest, LiesUnderItsHashAndInEveryCopy) {
    ASSERT_EQ(m_store->append({attachedTo("a1", 1, kTicket)}).outcome, Outcome::recorded);
    EXPECT_EQ(m_store->attachedFile(sha256Hex(kTicket)).value(), kTicket);
    EXPECT_TRUE(problems().empty());
    EXPECT_EQ(m_store->entriesAbout("cylinder:A101").value().back().body["name"], "ticket.pdf");

    const std::string copy = m_folder.file("copy.tarebook");
    ASSERT_TRUE(m_store->backup(copy));
    EXPECT_EQ(Store::open(copy, m_clock, true).store->attachedFile(sha256Hex(kTicket)).value(), kTicket);
    ASSERT_TRUE(m_store->rebuild());
    EXPECT_EQ(m_store->attachedFile(sha256Hex(kTicket)).value(), kTicket);

    ASSERT_EQ(m_store->append({attachedTo("a2", 1, "%PDF-later")}).outcome, Outcome::recorded);
    const std::string then = m_folder.file("then.tarebook");
    ASSERT_TRUE(writeEarlierBooks(m_path, 2, then, m_clock, {}));
    const auto earlier = Store::open(then, m_clock, true);
    EXPECT_EQ(earlier.store->attachedFile(sha256Hex(kTicket)).value(), kTicket);
    EXPECT_FALSE(earlier.store->attachedFile(sha256Hex("%PDF-later"))) << "attached only afterwards";
    EXPECT_TRUE(earlier.store->verify().value().problems.empty());
}

TEST_F(AttachmentTest, IsKeptOnceForTheSameBytes) {
    ASSERT_EQ(m_store->append({attachedTo("a1", 1, kTicket)}).outcome, Outcome::recorded);
    const auto before = std::filesystem::file_size(m_path);
    const std::string large = "%PDF-" + std::string(200'000, 'x');
    ASSERT_EQ(m_store->append({attachedTo("a2", 1, large), attachedTo("a3", 2, large)}).outcome,
              Outcome::recorded);
    EXPECT_LT(std::filesystem::file_size(m_path) - before, 2 * large.size());
    EXPECT_EQ(m_store->append({attachedTo("a3", 2, large)}).outcome, Outcome::alreadyRecorded);
    EXPECT_TRUE(problems().empty());
}

TEST_F(AttachmentTest, ComesWithItsBytesOrNotAtAll) {
    Draft without = attachedTo("a1", 1, kTicket);
    without.file.clear();
    EXPECT_EQ(m_store->append({without}).outcome, Outcome::notRecorded);
    Draft other = attachedTo("a1", 1, kTicket);
    other.file.back() = 'T';
    EXPECT_EQ(m_store->append({other}).outcome, Outcome::notRecorded);
    EXPECT_EQ(m_store->append({attachedTo("a1", 9, kTicket)}).outcome, Outcome::notRecorded) << "no entry 9";
    Draft missing = attachedTo("a2", 1, "%PDF-another");
    missing.file.clear();
    // All or nothing: the second of two is refused, so the first file is not kept either.
    EXPECT_EQ(m_store->append({attachedTo("a1", 1, kTicket), missing}).outcome, Outcome::notRecorded);
    EXPECT_FALSE(m_store->attachedFile(sha256Hex(kTicket)));
    EXPECT_EQ(m_store->headSeq(), 1);
}

TEST_F(AttachmentTest, ThatRotsOrGoesIsNamed) {
    ASSERT_EQ(m_store->append({attachedTo("a1", 1, kTicket)}).outcome, Outcome::recorded);
    sqlite3* database = nullptr;
    ASSERT_EQ(sqlite3_open(m_path.c_str(), &database), SQLITE_OK);
    EXPECT_NE(sqlite3_exec(database, "UPDATE attachment SET bytes = x'00'", nullptr, nullptr, nullptr),
              SQLITE_OK);
    EXPECT_NE(sqlite3_exec(database, "DELETE FROM attachment", nullptr, nullptr, nullptr), SQLITE_OK);
    sqlite3_close(database);
    meddle("DROP TRIGGER attachment_is_never_changed; UPDATE attachment SET bytes = CAST(replace(CAST(bytes "
           "AS TEXT), 'weight', 'height') AS BLOB)");
    ASSERT_EQ(problems().size(), 1U);
    EXPECT_EQ(problems().front(), "entry 2: the attached file ticket.pdf is another than was attached");
    EXPECT_FALSE(m_store->attachedFile(sha256Hex(kTicket)));
    meddle("DROP TRIGGER attachment_is_never_dropped; DELETE FROM attachment");
    ASSERT_EQ(problems().size(), 1U);
    EXPECT_EQ(problems().front(), "entry 2: the attached file ticket.pdf is missing");
    meddle("INSERT INTO attachment VALUES('" + std::string(64, 'b') + "', x'01')");
    EXPECT_EQ(problems().back(), "an attached file that no entry names: " + std::string(64, 'b'));
}
