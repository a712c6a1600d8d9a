// Bytes that rot on the disk, and writes that went to another place: what verification and opening are for
// (sqlite.org/howtocorrupt.html names both). A bit is flipped in every page of a shop file, pages change
// places or are written over by another. Expected: the file is refused, or `verify` names a problem, or every
// answer is as it was; never another number without a word.

#include <fstream>
#include <iostream>
#include <random>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "tests/faults/sweep.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr std::size_t kPage = 4'096; // SQLite's default
constexpr std::int64_t kFewOfAPage = 2;
constexpr std::int64_t kManyOfAPage = 100; // when all is asked for

class DamageTest : public testing::Test {
protected:
    void SetUp() override {
        const std::string path = m_folder.file("whole");
        makeShop(path, everyKind().size(), m_clock);
        m_whole = bytesOf(path);
        m_right = everyAnswer(*Store::open(path, m_clock).store);
        m_pages = m_whole.size() / kPage;
        ASSERT_GT(m_pages, 20U);
        ASSERT_EQ(m_whole.size(), m_pages * kPage);
    }
    void TearDown() override {
        std::cout << fmt::format("seed {}: {} damages, {} found, {} without effect, {} silent\n",
                                 m_measure.seed, m_found + m_harmless + m_silent, m_found, m_harmless,
                                 m_silent);
        EXPECT_EQ(m_silent, 0);
        EXPECT_GT(m_found, 0);
    }

    std::size_t random(std::size_t below) { return m_random() % below; }

    void judge(const std::string& bytes, const std::string& what) {
        const std::string path = m_folder.file("damaged");
        std::ofstream(path, std::ios::binary) << bytes;
        const bool found = isFound(path);
        const bool same = !found && isSame(path);
        m_found += found ? 1 : 0;
        m_harmless += same ? 1 : 0;
        m_silent += !found && !same ? 1 : 0;
        EXPECT_TRUE(found || same) << what;
        for (const char* rest : {"damaged", "damaged-journal"}) {
            std::filesystem::remove(m_folder.file(rest));
        }
    }

    [[nodiscard]] std::int64_t perPage() const {
        return m_measure.points == 0 ? kManyOfAPage : m_measure.points;
    }

    TempFolder m_folder{TempFolder::Where::memory};
    SetClock m_clock{at(10'000)};
    Measure m_measure = Measure::fromEnvironment(kFewOfAPage);
    std::mt19937_64 m_random{m_measure.seed};
    std::string m_whole;
    std::size_t m_pages = 0;

private:
    [[nodiscard]] bool isFound(const std::string& path) const {
        const auto opened = Store::open(path, m_clock);
        if (!opened.store) {
            EXPECT_FALSE(opened.error.wrong.empty());
            return true;
        }
        const auto verified = opened.store->verify();
        return !verified || !verified.value().problems.empty();
    }
    [[nodiscard]] bool isSame(const std::string& path) const {
        const auto answers = everyAnswer(*Store::open(path, m_clock, true).store);
        for (std::size_t place = 0; place < answers.size(); ++place) {
            if (!answers[place] || answers[place].value() != m_right[place].value()) {
                return false;
            }
        }
        return true;
    }

    std::vector<Result<std::string>> m_right;
    int m_found = 0;
    int m_harmless = 0;
    int m_silent = 0;
};

} // namespace

TEST_F(DamageTest, AFlippedBitIsFoundOrChangesNothing) {
    for (std::size_t page = 0; page < m_pages; ++page) {
        for (std::int64_t time = 0; time < perPage(); ++time) {
            std::string bytes = m_whole;
            const std::size_t place = page * kPage + random(kPage);
            const std::size_t bit = random(8);
            bytes[place] = static_cast<char>(static_cast<unsigned char>(bytes[place]) ^ (1U << bit));
            judge(bytes, fmt::format("bit {} of byte {}, in page {}", bit, place, page + 1));
        }
    }
}

TEST_F(DamageTest, PagesThatChangedPlacesAreFound) {
    const auto rounds = static_cast<std::int64_t>(m_pages) * perPage() / 2;
    for (std::int64_t round = 0; round < rounds; ++round) {
        const std::size_t one = random(m_pages);
        const std::size_t other = (one + 1 + random(m_pages - 1)) % m_pages;
        std::string bytes = m_whole;
        bytes.replace(other * kPage, kPage, m_whole, one * kPage, kPage);
        judge(bytes, fmt::format("page {} written over page {}", one + 1, other + 1));
        bytes.replace(one * kPage, kPage, m_whole, other * kPage, kPage);
        judge(bytes, fmt::format("pages {} and {} changed places", one + 1, other + 1));
    }
}
