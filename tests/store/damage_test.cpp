// Which part of a file is lost when a page of it is zeroed, as a bad block leaves it. What stands on the page
// is read off its bytes here, without SQLite: bodies of the journal and their ids are text.
#include <filesystem>
#include <fstream>
#include <regex>
#include <set>

#include <gtest/gtest.h>
#include <sqlite3.h>

#include "core/store/store.h"
#include "tests/store/sample_drafts.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr std::size_t kPage = 4'096; // SQLite's default

class PageDamageTest : public testing::Test {
protected:
    void SetUp() override {
        auto made = Store::create(m_path, m_clock);
        ASSERT_TRUE(made.store);
        std::vector<Draft> drafts{registered("A101")};
        for (int number = 2; number <= 200; ++number) { // the number of the entry that it becomes
            drafts.push_back(weighed(fmt::format("w{}w", number), number, "A101", number * 100'000));
        }
        ASSERT_EQ(made.store->append(drafts).outcome, Outcome::recorded);
        made.store.reset();
        std::ifstream file(m_path, std::ios::binary);
        m_bytes.assign(std::istreambuf_iterator<char>(file), {});
    }
    /// What verify says once that page, counted from 0, is zeroed.
    [[nodiscard]] std::vector<std::string> problemsWithout(std::size_t page) {
        std::string bytes = m_bytes;
        bytes.replace(page * kPage, kPage, kPage, '\0');
        std::ofstream(m_path, std::ios::binary | std::ios::trunc) << bytes;
        const auto opened = Store::open(m_path, m_clock, true);
        EXPECT_TRUE(opened.store) << opened.error.text();
        const auto verified = opened.store ? opened.store->verify() : Result<Verification>(opened.error);
        EXPECT_TRUE(verified) << verified.error().text();
        return verified ? verified.value().problems : std::vector<std::string>();
    }
    /// Numbers of the entries whose bodies stand on a page, in their order.
    [[nodiscard]] std::set<int> entriesOn(std::size_t page) const {
        const std::string text = m_bytes.substr(page * kPage, kPage);
        std::set<int> numbers;
        if (text.find("\"gross_mg\"") == std::string::npos) {
            return numbers; // an index has the ids, too
        }
        const std::regex id("w([0-9]+)w");
        for (std::sregex_iterator one(text.begin(), text.end(), id); one != std::sregex_iterator(); ++one) {
            numbers.insert(std::stoi((*one)[1]));
        }
        return numbers;
    }
    [[nodiscard]] std::size_t rootOf(const std::string& name) const {
        std::ofstream(m_path, std::ios::binary | std::ios::trunc) << m_bytes;
        sqlite3* handle = nullptr;
        sqlite3_open(m_path.c_str(), &handle);
        sqlite3_stmt* row = nullptr;
        sqlite3_prepare_v2(handle, ("SELECT rootpage FROM sqlite_schema WHERE name = '" + name + "'").c_str(),
                           -1, &row, nullptr);
        EXPECT_EQ(sqlite3_step(row), SQLITE_ROW) << name;
        const auto page = static_cast<std::size_t>(sqlite3_column_int64(row, 0));
        sqlite3_finalize(row);
        sqlite3_close(handle);
        return page - 1;
    }

    TempFolder m_folder;
    std::string m_path = m_folder.file("shop.tarebook");
    SetClock m_clock{at(10'000)};
    std::string m_bytes;
};

bool has(const std::vector<std::string>& problems, const std::string& words) {
    return std::any_of(problems.begin(), problems.end(),
                       [&](const std::string& one) { return one.find(words) != std::string::npos; });
}

std::string all(const std::vector<std::string>& problems) {
    std::string text;
    for (const std::string& one : problems) {
        text += one + "\n";
    }
    return text;
}

} // namespace

TEST_F(PageDamageTest, TheEntriesOfALostPageAreNamed) {
    int pages = 0;
    for (std::size_t page = 1; page < m_bytes.size() / kPage; ++page) {
        const std::set<int> lost = entriesOn(page);
        if (lost.empty() || *lost.begin() == 2 || *lost.rbegin() == 200) {
            continue;
        }
        ++pages;
        const std::string words =
            fmt::format("journal: what stands between entry {} and entry {} cannot be read",
                        *lost.begin() - 1, *lost.rbegin() + 1);
        const auto problems = problemsWithout(page);
        EXPECT_TRUE(has(problems, words)) << words << "\n" << all(problems);
        EXPECT_FALSE(has(problems, "view ")) << all(problems);
    }
    EXPECT_GT(pages, 5);
}

// The views can be made of the journal: where that is whole, it is said.
TEST_F(PageDamageTest, ALostViewIsNamedAndThatTheJournalIsWhole) {
    for (const char* view : {"subject", "touch", "leg", "cylinder", "cylinder_state", "record", "flow"}) {
        const auto problems = problemsWithout(rootOf(view));
        EXPECT_TRUE(has(problems, fmt::format("view {}: nothing of it can be read", view))) << all(problems);
        EXPECT_TRUE(has(problems, "its chain is whole")) << all(problems);
        EXPECT_FALSE(has(problems, "journal:")) << all(problems);
    }
}

TEST_F(PageDamageTest, ALostIndexIsToldFromLostRows) {
    for (const auto& [index, table] : {std::pair{"sqlite_autoindex_journal_1", "journal"},
                                       {"leg_by_source", "view leg"},
                                       {"cylinder_by_due", "view cylinder"}}) {
        const auto problems = problemsWithout(rootOf(index));
        EXPECT_TRUE(has(problems, fmt::format("{}: all of it can be read, but an index of it", table)))
            << index << "\n"
            << all(problems);
        EXPECT_FALSE(has(problems, "cannot be read")) << all(problems);
    }
}
