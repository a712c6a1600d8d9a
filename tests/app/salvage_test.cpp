// A file that was cut short or has bad pages gives every entry that is still in it, and says which are not.
// What is still in it is found without our reader: the bodies of the entries are text in the bytes of the
// file, and entries of one page are lost together.
#include <regex>
#include <set>

#include "tests/app/cylinders_file.h"

using namespace tarebook::tests;

namespace {

constexpr int kCylinders = 400;
constexpr std::size_t kPage = 4'096; // SQLite's default

class SalvageTest : public CylindersFileTest {
protected:
    void SetUp() override {
        CylindersFileTest::SetUp();
        makeFile(kCylinders);
        m_lines = linesOf(good("journal s").out);
        for (const std::string& line : m_lines) {
            const auto entry = nlohmann::json::parse(line);
            m_digests.push_back(entry["previous"].get<std::string>() + entry["digest"].get<std::string>());
        }
        m_bytes = read(file("s"));
    }
    static std::vector<std::string> linesOf(const std::string& text) {
        std::vector<std::string> lines;
        std::istringstream stream(text);
        for (std::string line; std::getline(stream, line);) {
            lines.push_back(line);
        }
        return lines;
    }
    /// Places in m_lines of the entries whose rows stand on a page: each row has the digest of the entry and
    /// of the one before it, in this order behind its body.
    [[nodiscard]] std::set<std::size_t> entriesOn(std::size_t page) const {
        const std::string text = m_bytes.substr(page * kPage, kPage);
        std::set<std::size_t> found;
        for (std::size_t place = 0; place < m_lines.size(); ++place) {
            if (holds(text, m_digests[place])) {
                found.insert(place);
            }
        }
        return found;
    }
    [[nodiscard]] std::set<std::size_t> entriesFrom(std::size_t page) const {
        std::set<std::size_t> found;
        for (; page * kPage < m_bytes.size(); ++page) {
            found.merge(entriesOn(page));
        }
        return found;
    }
    /// The verbs on a file of which these entries, and no others, are lost.
    void expectLost(const std::set<std::size_t>& lost, const std::string& told) {
        const std::size_t left = m_lines.size() - lost.size();
        const Answer journal = run("journal s");
        EXPECT_EQ(journal.code, 3) << told;
        const auto lines = linesOf(journal.out);
        EXPECT_EQ(lines.size(), left) << told << journal.err.substr(0, 500);
        std::size_t place = 0;
        for (const std::string& line : lines) {
            while (lost.contains(place)) {
                ++place;
            }
            ASSERT_LT(place, m_lines.size());
            EXPECT_EQ(line, m_lines[place]) << told;
            ++place;
        }
        const std::string counted = fmt::format("{} of ", left);
        const Answer verified = run("verify s");
        EXPECT_EQ(verified.code, 3);
        for (const std::string& words : {counted, std::string("cannot be read")}) {
            EXPECT_TRUE(holds(journal.err, words)) << told << journal.err;
            EXPECT_TRUE(holds(verified.err, words)) << told << verified.err;
        }
        EXPECT_TRUE(holds(verified.out, fmt::format("{} entries, NOT sound", left))) << verified.out;
        const auto json = run("verify s --json").json();
        std::set<std::size_t> named;
        for (const auto& span : json["lost_entries"]) {
            for (std::size_t seq = span[0]; seq <= span[1].get<std::size_t>(); ++seq) {
                named.insert(seq - 1);
            }
        }
        EXPECT_TRUE(std::includes(lost.begin(), lost.end(), named.begin(), named.end())) << told;
        for (const std::size_t gone :
             lost) { // behind the last that can be read nobody knows how many there were
            EXPECT_TRUE(named.contains(gone) || gone + 1 > left + named.size()) << told << gone;
        }
    }

    std::vector<std::string> m_lines;
    std::vector<std::string> m_digests; // of the entry before and of the entry, as its row has them
    std::string m_bytes;
};

} // namespace

TEST_F(SalvageTest, BehindABadPageTheJournalGoesOn) {
    int pages = 0;
    for (std::size_t page = 2; (page + 1) * kPage < m_bytes.size() && pages < 4; page += 3) {
        const auto lost = entriesOn(page);
        if (lost.empty() || lost.contains(m_lines.size() - 1)) {
            continue;
        }
        ++pages;
        std::string bytes = m_bytes;
        bytes.replace(page * kPage, kPage, kPage, '\0');
        write("s", bytes);
        expectLost(lost, fmt::format("page {}\n", page));
        const std::string words =
            fmt::format("entries {} to {} cannot be read", *lost.begin() + 1, *lost.rbegin() + 1);
        EXPECT_TRUE(holds(run("verify s").err, words)) << words << run("verify s").err;
        EXPECT_TRUE(holds(run("journal s").err, words)) << words << run("journal s").err;
    }
    EXPECT_EQ(pages, 4);
}

TEST_F(SalvageTest, OfAFileThatWasCutShortAllIsReadThatIsThere) {
    const std::size_t pages = m_bytes.size() / kPage;
    std::size_t last = pages - 1; // page with rows of the journal
    while (entriesOn(last).empty()) {
        --last;
    }
    int cuts = 0;
    for (const std::size_t cut : {std::size_t{1}, pages - last, pages - last + 5}) {
        const auto lost = entriesFrom(pages - cut);
        if (lost.empty()) {
            continue;
        }
        ++cuts;
        write("s", m_bytes.substr(0, (pages - cut) * kPage));
        expectLost(lost, fmt::format("{} of {} pages cut\n", cut, pages));
        // In the middle of a page, of which a row may still be whole.
        write("s", m_bytes.substr(0, (pages - cut) * kPage + 1'000));
        EXPECT_GE(linesOf(run("journal s").out).size(), m_lines.size() - lost.size());
    }
    EXPECT_GT(cuts, 0) << "none of them took an entry along";
}

// Views can be made of the journal; where that is whole, so is what matters.
TEST_F(SalvageTest, OfALostViewItIsSaidThatTheJournalIsWhole) {
    std::size_t views = 0;
    for (std::size_t page = 2; (page + 1) * kPage < m_bytes.size(); page += 5) {
        // A leaf with rows of the journal is another test's; a page above such leaves (type 5) takes them
        // along; without a page of the schema SQLite reads no table at all.
        if (!entriesOn(page).empty() || m_bytes[page * kPage] == '\5' ||
            holds(m_bytes.substr(page * kPage, kPage), "CREATE ")) {
            continue;
        }
        std::string bytes = m_bytes;
        bytes.replace(page * kPage, kPage, kPage, '\0');
        write("s", bytes);
        const Answer verified = run("verify s");
        EXPECT_EQ(verified.code, 3) << page;
        EXPECT_FALSE(holds(verified.err, "entries can be read") && holds(verified.err, " to "))
            << verified.err;
        views += holds(verified.err, "cannot be read; the journal, of which it is made, is whole") ? 1U : 0U;
        EXPECT_EQ(linesOf(run("journal s").out).size(), m_lines.size());
    }
    EXPECT_GT(views, 0U);
}
