// The paper that goes with a batch: what it says, for people and for machines.
#include "core/papers/manifest.h"

#include "core/base/text_width.h"
#include "core/shop/terms.h"
#include "tests/shop/week_shop.h"
#include "tests/support/week_cylinders.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class ManifestTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        std::vector<Draft> drafts = {
            draftOf(*m_shop, Party{"reclaimer", "Cape Reclaim", "Foundry Way 2, Port Ansel", "R-0417"})};
        // Names of customers have letters of more than one byte.
        for (const Draft& draft :
             draftsOf(*m_shop, System{"KJØL", "R-1", "Kjøl og Frost Ærø", "R-22", lb("60"), ""})) {
            drafts.push_back(draft);
        }
        expectRecorded(m_shop->record(drafts));
        std::vector<NewCylinder> two = {weekCylinder("A103", "DOT-4BA400", "26.2", "17.0", "2024-10"),
                                        weekCylinder("Å1", "DOT-4BA400", "26.2", "17.0", "2024-10")};
        for (NewCylinder& cylinder : two) {
            cylinder.evacuated = false;
            cylinder.content = lb("14.6");
            cylinder.refrigerant = "R-22";
        }
        two[0].contentOwner = "Kjøl og Frost Ærø";
        two[1].contentOwner = "Ansel Harbor Cold Storage";
        expectRecorded(registerCylinders(*m_shop, two));
        expectRecorded(prepareBatch(*m_shop, "B-1", "Cape Reclaim", {"A103", "Å1"}));
    }
    [[nodiscard]] Manifest manifest() { return manifestOf(*m_shop, "B-1").value(); }
};

std::vector<std::string> linesOf(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);) {
        lines.push_back(line);
    }
    return lines;
}

} // namespace

TEST_F(ManifestTest, JsonHasAllThatThePaperHas) {
    const auto json = jsonOf(manifest());
    EXPECT_EQ(json["batch"], "B-1");
    EXPECT_EQ(json["shop"], "Larkspur Mechanical");
    EXPECT_EQ(json["shop_address"], "Port Ansel");
    EXPECT_EQ(json["reclaimer"], "Cape Reclaim");
    EXPECT_EQ(json["reclaimer_address"], "Foundry Way 2, Port Ansel");
    EXPECT_EQ(json["reclaimer_number"], "R-0417");
    const std::string text = manifestText(manifest());
    for (const char* key : {"title", "batch", "issued", "shop", "shop_address", "reclaimer",
                            "reclaimer_address", "reclaimer_number", "head"}) {
        EXPECT_NE(text.find(json[key].get<std::string>()), std::string::npos) << key;
    }
}

TEST_F(ManifestTest, EveryIssueIsCounted) {
    EXPECT_EQ(manifest().heading.issue, 1);
    expectRecorded(issueManifest(*m_shop, manifest()));
    EXPECT_EQ(manifest().heading.issue, 2);
    EXPECT_EQ(jsonOf(manifest())["issue"], 2);
    EXPECT_NE(manifestText(manifest()).find("Batch B-1, issue 2, 2026-09-14 08:30"), std::string::npos);
    EXPECT_EQ(footLine(manifest().heading), "Return of recovered refrigerant, batch B-1, issue 2, books at " +
                                                m_shop->store().headDigest().substr(0, 16));
}

TEST_F(ManifestTest, ADraftSaysThatItIsNone) {
    Manifest draft = manifest();
    draft.heading.draft = true;
    EXPECT_NE(manifestText(draft).find("Batch B-1, draft, not issued, 2026-09-14 08:30"), std::string::npos);
    EXPECT_NE(footLine(draft.heading).find("batch B-1, draft, not issued, books at"), std::string::npos);
    EXPECT_TRUE(jsonOf(draft)["issue"].is_null());
    EXPECT_EQ(jsonOf(draft)["draft"], true);
    EXPECT_EQ(jsonOf(manifest())["draft"], false);
}

// Without an address or a number no comma is left behind.
TEST_F(ManifestTest, AReclaimerThatIsNotOnFileHasOnlyItsName) {
    expectRecorded(prepareBatch(*m_shop, "B-1", "Tidewater Reclaim", {"A103"}));
    EXPECT_EQ(toLine(manifestOf(*m_shop, "B-1").value().heading), "Tidewater Reclaim");
}

TEST_F(ManifestTest, ColumnsLineUpByCharacters) {
    const auto lines = linesOf(manifestText(manifest()));
    std::vector<std::size_t> places; // of the last column, in characters
    for (const std::string& line : lines) {
        for (const char* cell : {"Gas of", "Kjøl og Frost Ærø", "Ansel Harbor Cold Storage"}) {
            const std::size_t byte = line.find(cell);
            if (byte != std::string::npos) {
                places.push_back(characterCount(std::string_view(line).substr(0, byte)));
            }
        }
    }
    ASSERT_EQ(places.size(), 3U);
    EXPECT_EQ(places[0], places[1]);
    EXPECT_EQ(places[0], places[2]);
}

// UN numbers and classes: 49 CFR 172.101 (tests/standards/transport/un-numbers.csv): R-22 UN1018, 2.2; R-32
// UN3252, 2.1. Placards from 1,001 lb (454 kg) gross: 49 CFR 172.504(c), from memory.
TEST_F(ManifestTest, WhatBurnsIsMarkedInWordsAndPlacardsAreNamed) {
    NewCylinder burning = weekCylinder("F1", "DOT-4BA400", "26.2", "17.0", "2024-10");
    burning.plate.flammableRated = true;
    burning.evacuated = false;
    burning.content = lb("10");
    burning.refrigerant = "R-32";
    expectRecorded(registerCylinders(*m_shop, {burning}));
    expectRecorded(prepareBatch(*m_shop, "B-2", "Cape Reclaim", {"F1"}));
    EXPECT_EQ(manifest().columns.back(), "Label");
    EXPECT_EQ(manifest().rows[0].back(), "2.2");
    const Manifest paper = manifestOf(*m_shop, "B-2").value();
    ASSERT_EQ(paper.rows.size(), 1U);
    EXPECT_EQ(paper.rows[0].back(), "2.1 FLAMMABLE GAS");
    const std::string text = manifestText(paper);
    EXPECT_NE(text.find("2.1 FLAMMABLE GAS"), std::string::npos) << text;
    EXPECT_TRUE(paper.placards.empty()) << "27 lb travel under the relief for the trades";
}

TEST_F(ManifestTest, ALoadAboveTheLimitAsksForPlacards) {
    std::vector<NewCylinder> many;
    std::vector<std::string> serials;
    for (int number = 0; number < 20; ++number) {
        many.push_back(weekCylinder("L" + std::to_string(number), "DOT-4BA400", "47.7", "27.0", "2024-10"));
        many.back().evacuated = false;
        many.back().content = lb("30");
        many.back().refrigerant = "R-22";
        serials.push_back(many.back().plate.serial);
    }
    expectRecorded(registerCylinders(*m_shop, many));
    const std::vector<std::string> ten(serials.begin(), serials.begin() + 10);
    expectRecorded(prepareBatch(*m_shop, "B-3", "Cape Reclaim", ten)); // 10 x 57 lb = 570 lb: no relief
    const Manifest fewer = manifestOf(*m_shop, "B-3").value();
    ASSERT_EQ(fewer.placards.size(), 1U);
    EXPECT_NE(fewer.placards[0].find("No placards yet."), std::string::npos) << fewer.placards[0];
    EXPECT_NE(fewer.placards[0].find("49 CFR 172.504(c), from memory: check against your edition"),
              std::string::npos)
        << fewer.placards[0];
    EXPECT_NE(manifestText(fewer).find(fewer.placards[0]), std::string::npos);
    EXPECT_EQ(jsonOf(fewer)["placards"][0], fewer.placards[0]);
    expectRecorded(prepareBatch(*m_shop, "B-3", "Cape Reclaim", serials)); // 1,140 lb
    const Manifest paper = manifestOf(*m_shop, "B-3").value();
    ASSERT_EQ(paper.placards.size(), 1U);
    EXPECT_NE(paper.placards[0].find("Placards on all four sides."), std::string::npos) << paper.placards[0];
    EXPECT_NE(paper.placards[0].find("1140.0 lb"), std::string::npos) << paper.placards[0];
}

TEST_F(ManifestTest, ForWhichCylindersAnEmptyIsDueStandsOnThePaper) {
    EXPECT_TRUE(manifest().exchange.empty()); // nobody has entered any terms
    AcceptanceTerms terms;
    terms.exchange.given = true;
    terms.exchange.fee = 0;
    expectRecorded(setTerms(*m_shop, "Cape Reclaim", terms));
    const std::string said = "Cape Reclaim gives an empty in exchange for A103, Å1, free.";
    ASSERT_EQ(manifest().exchange.size(), 1U);
    EXPECT_EQ(manifest().exchange.front(), said);
    EXPECT_EQ(jsonOf(manifest())["exchange"][0], said);
    EXPECT_NE(manifestText(manifest()).find(said + "\n"), std::string::npos);
}
