#include "core/ledger/entry.h"

#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>

#include <fmt/format.h>
#include <gtest/gtest.h>

using namespace tarebook;

namespace {

// Digests made with Python 3.11 by hashlib.sha256 over (previous, line feed, json.dumps with sort_keys,
// separators
// (',', ':') and ensure_ascii=False).
constexpr std::array<const char*, 3> kDigests = {
    "dac50a10f48a472acc04ff2c42006d13de94e71113d633c03298323772264ee1",
    "6bd7b2b7055e9448f85b986ce9b8b587cf7334fe2bd21ec95bd88485aa1295c2",
    "924b5713cb5aad218cdea61b932e24daef08cba45c702febb38c3de10b43e39a"};

Entry entryOf(Sequence seq, const char* id, EntryKind kind, const char* occurred, nlohmann::json body) {
    Entry entry;
    entry.id = id;
    entry.operatorName = "Dana";
    entry.occurred = Instant::parse(occurred).value();
    entry.zone = "America/Chicago";
    entry.kind = kind;
    entry.body = std::move(body);
    entry.seq = seq;
    entry.recorded = Instant::parse("2026-09-14T21:31:00Z").value().plusSeconds(seq);
    return entry;
}

std::vector<Entry> chain() {
    std::vector<Entry> entries{
        entryOf(1, "w-1", EntryKind::weighed, "2026-09-14T16:30:00-05:00",
                {{"tare_mg", 12473790}, {"serial", "A101"}, {"gross_mg", 21636356}, {"tolerance_mg", 50000}}),
        entryOf(2, "l-2", EntryKind::locationChanged, "2026-09-13T08:05:09Z",
                {{"serial", "A101"}, {"place", "Kühlraum \"2\", rack \\ B — Ω"}}),
        entryOf(3, "r-3", EntryKind::entryReversed, "2026-09-15T00:00:00Z",
                {{"entry", 1}, {"reason", "x,\"digest\":\"" + std::string(64, 'a') + "\",\"id\":"}})};
    std::string previous(kGenesisDigest);
    for (Entry& entry : entries) {
        entry.previous = previous;
        entry.digest = digestOf(entry);
        previous = entry.digest;
    }
    return entries;
}

/// Exit status of the script that docs ship.
int verifyFile(const std::string& path) {
    return std::system(
        fmt::format("sh '{}/../docs/verify-journal.sh' '{}' >/dev/null 2>&1", TAREBOOK_TEST_DIR, path)
            .c_str());
}

int verify(const std::string& text) {
    const auto path =
        std::filesystem::path(testing::TempDir()) /
        (std::string("journal-") + testing::UnitTest::GetInstance()->current_test_info()->name() + ".jsonl");
    std::ofstream(path) << text;
    const int status = verifyFile(path.string());
    std::filesystem::remove(path);
    return status;
}

std::string exported(const std::vector<Entry>& entries) {
    std::string text;
    for (const Entry& entry : entries) {
        text += exportLine(entry) + "\n";
    }
    return text;
}

Draft weighed(nlohmann::json body) {
    return {"w-1",          "Dana", Instant::parse("2026-09-14T21:30:00Z").value(), "UTC", EntryKind::weighed,
            std::move(body)};
}

nlohmann::json good() {
    return {{"serial", "A101"}, {"gross_mg", 21636356}, {"tare_mg", 12473790}, {"tolerance_mg", 0}};
}

nlohmann::json with(const char* key, nlohmann::json value) {
    nlohmann::json body = good();
    body[key] = std::move(value);
    return body;
}

} // namespace

TEST(Entry, CanonicalTextAndDigestAreThoseOfAnOutsideProgram) {
    const auto entries = chain();
    EXPECT_EQ(
        canonicalText(entries[0]),
        R"({"body":{"gross_mg":21636356,"serial":"A101","tare_mg":12473790,"tolerance_mg":50000},"id":"w-1",)"
        R"("kind":"weighed","occurred":"2026-09-14T21:30:00Z","operator":"Dana","previous":)"
        R"("0000000000000000000000000000000000000000000000000000000000000000",)"
        R"("recorded":"2026-09-14T21:31:01Z","seq":1,"zone":"America/Chicago"})");
    for (std::size_t place = 0; place < entries.size(); ++place) {
        EXPECT_EQ(entries[place].digest, kDigests.at(place));
    }
}

// Outside check: nlohmann::json, which sorts the keys of an object by bytes and escapes as RFC 8259 asks.
TEST(Entry, TheLineIsTheOneAGeneralJsonLibraryWrites) {
    for (const std::string& text : {std::string("Dana"), std::string("D\xC3\xB6ra \"D\" \\ Quill"),
                                    std::string("tab\tand\x01\x7f"), std::string()}) {
        Entry entry = chain().front();
        entry.operatorName = text;
        entry.zone = text;
        entry.body["note"] = text;
        nlohmann::json object{{"body", entry.body},
                              {"id", entry.id},
                              {"kind", "weighed"},
                              {"occurred", "2026-09-14T21:30:00Z"},
                              {"operator", text},
                              {"previous", entry.previous},
                              {"recorded", "2026-09-14T21:31:01Z"},
                              {"seq", entry.seq},
                              {"zone", text}};
        EXPECT_EQ(canonicalText(entry), object.dump());
        EXPECT_EQ(digestOf(entry, entry.body.dump()), digestOf(entry));
        object["digest"] = entry.digest;
        EXPECT_EQ(exportLine(entry), object.dump());
    }
}

TEST(Entry, AnExportedLineReadsBack) {
    for (const Entry& entry : chain()) {
        const auto read = readExportLine(exportLine(entry));
        ASSERT_TRUE(read) << read.error().text();
        EXPECT_EQ(exportLine(read.value()), exportLine(entry));
        EXPECT_EQ(digestOf(read.value()), entry.digest);
    }
    EXPECT_FALSE(readExportLine("{\"body\":{}}"));
    EXPECT_FALSE(readExportLine("[]"));
    std::string line = exportLine(chain()[0]);
    line.replace(line.find("\"seq\":1"), 7, "\"seq\":18446744073709551615");
    EXPECT_NE(readExportLine(line).error().wrong.find("seq"), std::string::npos);
    line = exportLine(chain()[0]);
    line.replace(line.find("\"previous\":\"0"), 13, "\"previous\":\"g");
    EXPECT_NE(readExportLine(line).error().wrong.find("previous"), std::string::npos);
}

// The script in docs, with sha256sum: any changed byte, a missing entry and two in the wrong order are found.
TEST(Entry, TheScriptInDocsChecksAnExportedJournal) {
    auto entries = chain();
    const std::string text = exported(entries);
    EXPECT_EQ(verify(text), 0);
    for (std::size_t place = 0; place < text.size(); place += 173) {
        std::string damaged = text;
        damaged[place] = damaged[place] == 'e' ? 'f' : 'e';
        EXPECT_NE(verify(damaged), 0) << "byte " << place;
    }
    EXPECT_NE(verify(exported({entries[0], entries[2]})), 0);
    EXPECT_NE(verify(exported({entries[1], entries[0], entries[2]})), 0);
}

TEST(Entry, NoJournalIsNoSoundOne) {
    EXPECT_NE(verify(""), 0);
    EXPECT_NE(verify("\n"), 0);
    EXPECT_NE(verifyFile(testing::TempDir() + "/there-is-none"), 0);
    EXPECT_NE(verifyFile(testing::TempDir()), 0) << "a folder";
}

// More entries than the script hashes at one go.
TEST(Entry, ALongJournalIsCheckedToItsEnd) {
    std::vector<Entry> entries = chain();
    Entry next = entries.back();
    while (entries.size() < 5'020) {
        next.seq = entries.back().seq + 1;
        next.previous = entries.back().digest;
        next.digest = digestOf(next);
        entries.push_back(next);
    }
    EXPECT_EQ(verify(exported(entries)), 0);
    for (const std::size_t place : {std::size_t{4'998}, std::size_t{5'001}, std::size_t{5'019}}) {
        std::vector<Entry> changed = entries;
        changed[place].zone = "Europe/Paris";
        EXPECT_NE(verify(exported(changed)), 0) << place;
        changed = entries;
        changed.erase(changed.begin() + static_cast<std::ptrdiff_t>(place) - 1);
        EXPECT_NE(verify(exported(changed)), 0) << place;
    }
}

TEST(Draft, AcceptsWhatTheJournalKeeps) {
    EXPECT_TRUE(validated(weighed(good())));
    EXPECT_TRUE(validated(weighed(with("note", "Kühlraum 2"))));
}

TEST(Draft, RefusesWhatTheJournalCannotKeep) {
    EXPECT_FALSE(validated(weighed(with("note", std::string("a\0b", 3)))));
    EXPECT_FALSE(validated(weighed(with("note", "\xc3\x28"))));
    EXPECT_FALSE(validated(weighed(with("note", std::string(4001, 'a')))));
    EXPECT_FALSE(validated(weighed(with("note", 1.5))));
    EXPECT_FALSE(validated(weighed(with("gross_mg", 21636356.0))));
    EXPECT_FALSE(validated(weighed(with("gross_mg", 0))));
    EXPECT_FALSE(validated(weighed(with("gross_mg", -1))));
    EXPECT_FALSE(validated(weighed(with("gross_mg", 1'000'000'000'001))));
    EXPECT_FALSE(validated(weighed(with("gross_mg", 18'446'744'073'709'551'615ULL))));
    EXPECT_FALSE(validated(weighed(with("tare_mg", -1))));
    EXPECT_FALSE(validated(weighed(with("tolerance_mg", 9'223'372'036'854'775'807LL))));
    EXPECT_FALSE(validated(weighed(with("note", 9'223'372'036'854'775'808ULL))));
    EXPECT_FALSE(validated(weighed(with("serial", ""))));
    EXPECT_FALSE(validated(weighed(with("serial", " A101"))));
    EXPECT_FALSE(validated(weighed(with("serial", "A\n1"))));
    EXPECT_FALSE(validated(weighed(with("serial", std::string(41, 'A')))));
    EXPECT_FALSE(validated(weighed(nlohmann::json::array())));
    EXPECT_FALSE(validated(weighed(with("deep", {{{{{{{1}}}}}}}))));
    Draft draft = weighed(good());
    draft.id = "a b";
    EXPECT_FALSE(validated(draft));
    draft = weighed(good());
    draft.operatorName = "\xff";
    EXPECT_FALSE(validated(draft));
    draft = weighed(good());
    draft.occurred = Instant::fromSeconds(-2'300'000'000); // 1897
    EXPECT_FALSE(validated(draft));
}

// A terminal, a list and a paper have one line for a text: no control character of Unicode's category Cc, no
// separator of lines, wherever in the body it stands.
TEST(Draft, RefusesATextOfMoreThanOneLineOrWithControls) {
    const auto wrong = [](const nlohmann::json& body) {
        const auto valid = validated(weighed(body));
        return valid ? std::string() : valid.error().wrong;
    };
    EXPECT_EQ(wrong(with("note", "C-7\x1b[31m")), "note has the control character U+001B in it");
    EXPECT_EQ(wrong(with("note", "C\xC2\x9B"
                                 "7")),
              "note has the control character U+009B in it");
    EXPECT_EQ(wrong(with("note", "one\ntwo")), "note has a line break in it");
    EXPECT_EQ(wrong(with("note", "one\xE2\x80\xA8two")), "note has a line break in it");
    EXPECT_EQ(wrong(with("note", "one\ttwo")), "note has a tab in it");
    EXPECT_EQ(wrong(with("lines", {{{"why", "a\x7f"}}})),
              "lines.0.why has the control character U+007F in it");
    EXPECT_NE(wrong(with("no\x1bte", "a")), "");
    Draft draft = weighed(good());
    draft.operatorName = "Mara\x1b[2J";
    EXPECT_FALSE(validated(draft));
}

// Settled lines at the ends of 64 bits: their difference does not fit.
TEST(Draft, RefusesSettledLinesBeyondAllMass) {
    Draft draft = weighed({{"batch", "B-1"},
                           {"reclaimer", "Clearwater"},
                           {"lines",
                            {{{"serial", "A1"},
                              {"refrigerant", "R-22"},
                              {"book_mg", 9'223'372'036'854'775'807LL},
                              {"net_mg", -1}}}}});
    draft.kind = EntryKind::batchSettled;
    EXPECT_FALSE(validated(draft));
    draft.body["lines"][0]["book_mg"] = 1000;
    EXPECT_FALSE(validated(draft));
    draft.body["lines"][0]["net_mg"] = 0;
    EXPECT_TRUE(validated(draft));
}

TEST(Entry, ARecoveryMachineIsASubjectAndItsDayIsChecked) {
    Draft draft;
    draft.id = "m-1";
    draft.occurred = Instant::parse("2026-09-14T16:30:00Z").value();
    draft.zone = "America/Chicago";
    draft.kind = EntryKind::machineSet;
    draft.body = {{"machine", "RM-1"}, {"maker_serial", "88-1"}, {"made", "2019-05-20"}};
    EXPECT_TRUE(validated(draft)) << validated(draft).error().text();
    EXPECT_EQ(subjectsOf(draft), std::vector<std::string>{"machine:RM-1"})
        << "the maker's serial is no cylinder";
    EXPECT_EQ(entryKindWord(draft.kind), "machine_set");
    EXPECT_EQ(entryKindFrom("machine_set").value(), EntryKind::machineSet);
    draft.body["made"] = "May 2019";
    ASSERT_FALSE(validated(draft));
    EXPECT_NE(validated(draft).error().text().find("made"), std::string::npos);
    draft.body["made"] = "";
    EXPECT_TRUE(validated(draft));
    draft.body["machine"] = "";
    EXPECT_FALSE(validated(draft));
    draft.body["machine"] = " RM-1";
    EXPECT_FALSE(validated(draft)) << "a name stands as it reads";
    draft.kind = EntryKind::recovered;
    draft.body = {{"from", "system:HARBOR/DOCK-1"}, {"to", "cylinder:A1"}, {"mass_mg", 1000},
                  {"refrigerant", "R-22"},          {"machine", "RM-1"},   {"reached", "10 inHg"}};
    const auto subjects = subjectsOf(draft);
    EXPECT_NE(std::find(subjects.begin(), subjects.end(), "machine:RM-1"), subjects.end());
}

// One number for another: both cards have the entry, and whoever gave it.
TEST(Entry, ACylinderThatLeftForAnotherNamesBothAndTheParty) {
    Draft draft;
    draft.id = "x-1";
    draft.occurred = Instant::parse("2026-09-14T16:30:00Z").value();
    draft.zone = "America/Chicago";
    draft.kind = EntryKind::retired;
    draft.body = {{"serial", "A102"}, {"reason", "scrapped"}};
    EXPECT_TRUE(validated(draft));
    EXPECT_EQ(subjectsOf(draft), std::vector<std::string>{"cylinder:A102"});
    draft.body["for"] = "A201";
    draft.body["party"] = "reclaimer:Cape Reclaim";
    EXPECT_TRUE(validated(draft)) << validated(draft).error().text();
    EXPECT_EQ(subjectsOf(draft),
              (std::vector<std::string>{"cylinder:A102", "cylinder:A201", "reclaimer:Cape Reclaim"}));
    for (const char* party : {"atmosphere", "system:HARBOR/DOCK-1", "Cape Reclaim", "reclaimer: Cape"}) {
        draft.body["party"] = party;
        EXPECT_FALSE(validated(draft)) << party;
    }
    draft.body.erase("party");
    for (const std::string& serial : {std::string("A102"), std::string(41, 'A'), std::string(" A201")}) {
        draft.body["for"] = serial;
        EXPECT_FALSE(validated(draft)) << serial;
    }
}
