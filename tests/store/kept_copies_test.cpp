// Copies that are kept of a shop file: what is kept by age, and how one stands to the books. The spans are
// our own; that a copy is whole is asked of the store's own verification and of SQLite's integrity check.
#include <algorithm>
#include <filesystem>
#include <fstream>

#include <gtest/gtest.h>

#include "core/store/kept_copies.h"
#include "tests/store/sample_drafts.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class KeptCopiesTest : public testing::Test {
protected:
    void SetUp() override {
        auto created = Store::create(path(), m_clock);
        ASSERT_TRUE(created.store) << created.error.text();
        m_store = std::move(created.store);
    }
    [[nodiscard]] std::string path() const { return m_folder.file("shop.tarebook"); }
    void enter(const char* serial, int minute) {
        ASSERT_EQ(m_store->append({registered(serial, minute)}).outcome, Outcome::recorded);
    }
    [[nodiscard]] std::string keep() {
        m_clock.set(m_clock.now().plusSeconds(60));
        const auto kept = keepCopy(path(), m_clock);
        EXPECT_TRUE(kept) << kept.error().text();
        return kept ? kept.value() : "";
    }

    TempFolder m_folder;
    SetClock m_clock{at(10'000)};
    std::unique_ptr<Store> m_store;
};

Instant moment(const char* text) {
    return Instant::parse(text).value();
}

std::vector<std::string> left(const std::vector<KeptCopy>& copies, Instant now) {
    const auto gone = letGo(copies, now);
    std::vector<std::string> names;
    for (const KeptCopy& copy : copies) {
        if (std::find(gone.begin(), gone.end(), copy) == gone.end()) {
            names.push_back(copy.path);
        }
    }
    std::sort(names.begin(), names.end());
    return names;
}

} // namespace

// The shop file and its copies are their owner's alone; so is the folder, whatever the umask.
TEST_F(KeptCopiesTest, TheFolderIsItsOwnersAlone) {
    namespace fs = std::filesystem;
    enter("A101", 1);
    const std::string copy = keep();
    EXPECT_EQ(fs::status(copyFolderOf(path())).permissions(), fs::perms::owner_all);
    EXPECT_EQ(fs::status(copy).permissions(), fs::perms::owner_read | fs::perms::owner_write);
    fs::permissions(copyFolderOf(path()),
                    fs::perms::owner_all | fs::perms::group_read | fs::perms::group_exec);
    enter("A102", 2);
    EXPECT_FALSE(keep().empty());
    EXPECT_NE(fs::status(copyFolderOf(path())).permissions(), fs::perms::owner_all)
        << "what somebody opened to others stays so";
}

TEST_F(KeptCopiesTest, OneIsDueWhenTheBooksHaveChanged) {
    EXPECT_FALSE(copyIsDue(path(), m_clock)) << "nothing is in the books";
    enter("A101", 1);
    EXPECT_TRUE(copyIsDue(path(), m_clock));
    const std::string copy = keep();
    EXPECT_TRUE(copy.starts_with(copyFolderOf(path()) + "/")) << copy;
    EXPECT_FALSE(copyIsDue(path(), m_clock));
    enter("A102", 2);
    EXPECT_TRUE(copyIsDue(path(), m_clock));
    std::ofstream(copy, std::ios::trunc) << "no longer a copy";
    EXPECT_TRUE(copyIsDue(path(), m_clock)) << "the newest is damaged";
}

TEST_F(KeptCopiesTest, ACopyIsWholeAndMadeBesideAWriter) {
    enter("A101", 1);
    const std::string copy = keep();
    enter("A102", 2);
    const auto opened = Store::open(copy, m_clock, true);
    ASSERT_TRUE(opened.store) << opened.error.text();
    const auto verified = opened.store->verify();
    ASSERT_TRUE(verified);
    EXPECT_TRUE(verified.value().problems.empty());
    EXPECT_EQ(opened.store->headSeq(), 1);
    for (const auto& file : std::filesystem::directory_iterator(copyFolderOf(path()))) {
        EXPECT_EQ(file.path().extension(), ".tarebook") << "nothing unfinished stays: " << file.path();
    }
}

TEST_F(KeptCopiesTest, ADamagedFileIsNotCopiedOverGoodOnes) {
    enter("A101", 1);
    (void)keep();
    m_store.reset();
    {
        std::fstream file(path(), std::ios::in | std::ios::out | std::ios::binary);
        file.seekp(5'000);
        file << std::string(3'000, 'x');
    }
    m_clock.set(m_clock.now().plusSeconds(60));
    EXPECT_FALSE(keepCopy(path(), m_clock));
    EXPECT_EQ(keptCopies(path()).size(), 1U);
}

TEST_F(KeptCopiesTest, TellsWhatWouldBeLost) {
    enter("A101", 1);
    const std::string copy = keep();
    enter("A102", 2);
    enter("A103", 3);
    CopyStanding standing = standingOf(copy, m_store.get(), m_clock);
    EXPECT_EQ(standing.problem, "");
    EXPECT_EQ(standing.entries, 1);
    EXPECT_EQ(standing.common, 1);
    EXPECT_EQ(standing.lost, 2);
    // The shop went on from the copy elsewhere: each has entries that the other lacks.
    const auto other = Store::open(copy, m_clock);
    ASSERT_EQ(other.store->append({registered("B201", 4), registered("B202", 5)}).outcome, Outcome::recorded);
    standing = standingOf(copy, m_store.get(), m_clock);
    EXPECT_EQ(standing.entries, 3);
    EXPECT_EQ(standing.common, 1);
    EXPECT_EQ(standing.lost, 2);
    EXPECT_FALSE(standingOf(m_folder.file("none"), m_store.get(), m_clock).problem.empty());
    EXPECT_EQ(standingOf(copy, nullptr, m_clock).entries, 3) << "where the shop file cannot be opened";
}

TEST_F(KeptCopiesTest, ListsThoseBeforeARestoreToo) {
    enter("A101", 1);
    const std::string copy = keep();
    enter("A102", 2);
    m_store.reset();
    ASSERT_TRUE(restoreBackup(copy, path(), m_clock));
    const auto copies = keptCopies(path());
    ASSERT_EQ(copies.size(), 2U);
    EXPECT_TRUE(std::any_of(copies.begin(), copies.end(), [](const KeptCopy& its) {
        return its.path.find(".before-restore-1") != std::string::npos;
    }));
}

TEST(LettingGo, KeepsFewerTheOlderTheyAre) {
    const Instant now = moment("2026-11-26T17:00:00Z");
    const std::vector<KeptCopy> copies = {
        {"today 16:50", moment("2026-11-26T16:50:00Z")}, {"today 16:10", moment("2026-11-26T16:10:00Z")},
        {"today 15:59", moment("2026-11-26T15:59:00Z")}, {"yesterday", moment("2026-11-25T08:00:00Z")},
        {"20th late", moment("2026-11-20T18:00:00Z")},   {"20th early", moment("2026-11-20T08:00:00Z")},
        {"19th", moment("2026-11-19T08:00:00Z")},        {"June late", moment("2026-06-30T08:00:00Z")},
        {"June early", moment("2026-06-01T08:00:00Z")},  {"May", moment("2026-05-31T08:00:00Z")},
        {"2022 late", moment("2022-12-31T08:00:00Z")},   {"2022 early", moment("2022-02-01T08:00:00Z")},
        {"2021", moment("2021-06-01T08:00:00Z")},        {"tomorrow 1", moment("2026-11-27T08:00:00Z")},
        {"tomorrow 2", moment("2026-11-27T08:01:00Z")}};
    EXPECT_EQ(left(copies, now), (std::vector<std::string>{"19th", "2021", "2022 late", "20th late",
                                                           "June late", "May", "today 15:59", "today 16:50",
                                                           "tomorrow 1", "tomorrow 2", "yesterday"}));
    EXPECT_EQ(left({{"alone", moment("1999-01-01T00:00:00Z")}}, now), std::vector<std::string>{"alone"});
    EXPECT_TRUE(letGo({}, now).empty());
}

// A shop that opens every half hour for three years: never more than 48 + 31 + 24 + 3 and some at the
// borders.
TEST(LettingGo, StaysBounded) {
    std::vector<KeptCopy> copies;
    const Instant start = moment("2023-01-01T00:00:00Z");
    std::size_t most = 0;
    for (int opening = 0; opening < 3 * 365 * 12; ++opening) {
        const Instant now = start.plusSeconds(opening * 7'200LL);
        copies.push_back({std::to_string(opening), now});
        for (const KeptCopy& gone : letGo(copies, now)) {
            std::erase(copies, gone);
        }
        most = std::max(most, copies.size());
        ASSERT_EQ(std::max_element(copies.begin(), copies.end(),
                                   [](const auto& one, const auto& other) { return one.taken < other.taken; })
                      ->taken,
                  now);
    }
    EXPECT_LE(most, 88U);
    EXPECT_GE(copies.size(), 24U + 28U + 22U);
}
