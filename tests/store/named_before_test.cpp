// Names that an earlier program let into the books, with characters that are refused now. The journal of such
// a program is made of one of today's: its texts are exchanged row by row and the chain is hashed anew.
#include <gtest/gtest.h>
#include <sqlite3.h>

#include "core/store/store.h"
#include "tests/store/sample_drafts.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

const std::string kSerial = "A\xE2\x80\xAE-1";     // U+202E
const std::string kPerson = "MORGAN\x1b[31m VALE"; // a control sequence
const std::string kTag = "DOCK\xC2\x85";           // U+0085
const std::string kCustomer = "Ansel\tHarbor";

class NamedBeforeTest : public testing::Test {
protected:
    void SetUp() override {
        std::vector<Draft> drafts = {
            registered("SERIAL"), draft("person", 1, EntryKind::personSet, {{"name", "PERSON"}}),
            draft("site", 2, EntryKind::siteSet, {{"site", "HARBOR"}, {"customer", "CUSTOMER"}}),
            draft("system", 3, EntryKind::systemSet, {{"site", "HARBOR"}, {"tag", "TAG"}}),
            moved("in", 4, EntryKind::recovered, "system:HARBOR/TAG", "cylinder:SERIAL", 100'000, "R-22")};
        {
            const auto made = Store::create(m_path, m_clock);
            ASSERT_TRUE(made.store);
            ASSERT_EQ(made.store->append(drafts).outcome, Outcome::recorded);
        }
        exchangeTexts();
        m_store = Store::open(m_path, m_clock).store;
        ASSERT_TRUE(m_store);
        ASSERT_TRUE(m_store->rebuild());
        ASSERT_TRUE(m_store->verify().value().problems.empty()) << m_store->verify().value().problems.front();
    }
    [[nodiscard]] Outcome append(Draft draft) {
        draft.id = "new-" + std::to_string(++m_number);
        return m_store->append({std::move(draft)}).outcome;
    }

    std::unique_ptr<Store> m_store;

private:
    static std::string asEarlier(const nlohmann::json& body) {
        std::string text = body.dump();
        for (const auto& [word, name] :
             {std::pair{"SERIAL", kSerial}, {"PERSON", kPerson}, {"TAG", kTag}, {"CUSTOMER", kCustomer}}) {
            const std::string written = nlohmann::json(name).dump();
            for (std::size_t place = text.find(word); place != std::string::npos; place = text.find(word)) {
                text.replace(place, std::string_view(word).size(), written, 1, written.size() - 2);
            }
        }
        return text;
    }
    void exchangeTexts() {
        const std::vector<Entry> entries = Store::open(m_path, m_clock).store->entries(1, 99).value();
        std::string change = "DROP TRIGGER journal_is_never_changed;";
        std::string previous = entries.front().previous;
        for (Entry entry : entries) {
            entry.body = nlohmann::json::parse(asEarlier(entry.body));
            entry.previous = previous;
            previous = digestOf(entry);
            change +=
                fmt::format("UPDATE journal SET body = '{}', previous = '{}', digest = '{}' WHERE seq = {};",
                            entry.body.dump(), entry.previous, previous, entry.seq);
        }
        change += "CREATE TRIGGER journal_is_never_changed BEFORE UPDATE ON journal\n"
                  "BEGIN SELECT RAISE(ABORT, 'the journal is never changed'); END";
        sqlite3* handle = nullptr;
        sqlite3_open(m_path.c_str(), &handle);
        EXPECT_EQ(sqlite3_exec(handle, change.c_str(), nullptr, nullptr, nullptr), SQLITE_OK)
            << sqlite3_errmsg(handle);
        sqlite3_close(handle);
    }

    TempFolder m_folder;
    std::string m_path = m_folder.file("shop.tarebook");
    SetClock m_clock{at(10'000)};
    int m_number = 0;
};

} // namespace

TEST_F(NamedBeforeTest, WhatTheBooksNameCanBeNamedAgain) {
    const std::string system = "system:HARBOR/" + kTag;
    EXPECT_EQ(append(weighed("", 10, kSerial, 100'000)), Outcome::recorded);
    EXPECT_EQ(append(moved("", 11, EntryKind::charged, "cylinder:" + kSerial, system, 50'000)),
              Outcome::recorded);
    EXPECT_EQ(append(draft("", 12, EntryKind::handedOut, {{"serial", kSerial}, {"person", kPerson}})),
              Outcome::recorded);
    EXPECT_EQ(append(draft("", 13, EntryKind::personSet, {{"name", kPerson}, {"active", false}})),
              Outcome::recorded);
    EXPECT_EQ(append(draft("", 14, EntryKind::systemSet, {{"site", "HARBOR"}, {"tag", kTag}})),
              Outcome::recorded);
    EXPECT_EQ(append(draft("", 15, EntryKind::siteSet, {{"site", "QUAY"}, {"customer", kCustomer}})),
              Outcome::recorded)
        << "the customer of another site";
    EXPECT_EQ(append(draft("", 16, EntryKind::retired, {{"serial", kSerial}, {"reason", "sold"}})),
              Outcome::recorded);
    EXPECT_EQ(append(reversal("", 17, 5)), Outcome::recorded);
    EXPECT_TRUE(m_store->verify().value().problems.empty());
}

TEST_F(NamedBeforeTest, NothingNewComesInThatWay) {
    for (const std::string& serial : {kSerial + "2", std::string("A\xE2\x80\xAE"), kSerial + kSerial}) {
        EXPECT_EQ(append(registered(serial)), Outcome::notRecorded) << serial;
        EXPECT_EQ(append(weighed("", 10, serial, 0)), Outcome::notRecorded) << serial;
    }
    Draft noted = weighed("", 10, kSerial, 0);
    noted.body["note"] = "seen by " + kPerson;
    EXPECT_EQ(append(noted), Outcome::notRecorded) << "a name within another text";
    noted.body["note"] = "seen";
    noted.zone = kPerson;
    EXPECT_EQ(append(noted), Outcome::notRecorded);
    noted.zone = "America/Chicago";
    noted.body[kTag + "?"] = 1;
    EXPECT_EQ(append(noted), Outcome::notRecorded) << "a key";
    EXPECT_EQ(append(draft("", 11, EntryKind::personSet, {{"name", "J\x1b[0m"}})), Outcome::notRecorded);
    EXPECT_EQ(m_store->headSeq(), 5);
}
