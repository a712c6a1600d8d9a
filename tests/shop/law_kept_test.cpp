// What was done against the law is not told once and forgotten: used gas in equipment of somebody who does
// not own it (40 CFR 82.154(d)) and gas let out (82.154(a)) stay open until a reason settles them or the
// entry is reversed. Masses: those of each test.
#include "core/shop/questions.h"
#include "tests/shop/counter_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr const char* kStore = "system:BRIGHTWATER/STORE-2";

class LawKeptTest : public CounterLawTest {
protected:
    /// 5 lb of St. Alder's gas in A101.
    void SetUp() override {
        CounterLawTest::SetUp();
        expectRecorded(movedIn("A101", "5", "system:ST-ALDER/RTU-3"));
        later();
    }
};

} // namespace

TEST_F(LawKeptTest, UsedGasInSomebodyElsesEquipmentStaysOpen) {
    const Review before = review(*m_shop, facts("A101", "3", {}, kStore));
    ASSERT_NE(named(before.findings, "release.owner"), nullptr);
    EXPECT_EQ(named(before.findings, "release.owner")->subject, kStore);
    EXPECT_NE(named(before.findings, "release.owner")->headline.find("3.0 lb of used R-410A of St. Alder"),
              std::string::npos)
        << named(before.findings, "release.owner")->headline;
    EXPECT_FALSE(alert("release.owner", kStore));
    expectRecorded(movedOut("A101", "3", kStore));
    const auto open = alert("release.owner", kStore);
    ASSERT_TRUE(open);
    EXPECT_EQ(open->finding.severity, Severity::refusal);
    EXPECT_EQ(open->finding.citation, "40 CFR 82.154(d)");
    EXPECT_TRUE(open->finding.overrulable);
    EXPECT_NE(open->finding.headline.find("equipment of Brightwater Grocers"), std::string::npos);
    EXPECT_NE(open->finding.remedy.find("Tell St. Alder Schools"), std::string::npos);
}

TEST_F(LawKeptTest, AReasonSettlesItAndTheNextChargeOpensItAgain) {
    expectRecorded(movedOut("A101", "3", kStore));
    later();
    EXPECT_EQ(overrule(*m_shop, "release.owner", kStore, " ").outcome, Outcome::notRecorded);
    EXPECT_EQ(overrule(*m_shop, "release.owner", "system:ST-ALDER/RTU-3", "x").outcome, Outcome::notRecorded);
    EXPECT_EQ(overrule(*m_shop, "release.owner", "system:NO/SUCH", "x").outcome, Outcome::notRecorded);
    const Recorded settled = overrule(*m_shop, "release.owner", kStore, "they agreed to be paid");
    expectRecorded(settled);
    EXPECT_FALSE(alert("release.owner", kStore));
    later();
    expectRecorded(movedOut("A101", "1", kStore));
    ASSERT_TRUE(alert("release.owner", kStore));
    EXPECT_TRUE(alert("release.owner", kStore)->finding.headline.starts_with("1.0 lb"))
        << "only what came since";
    expectRecorded(m_shop->reverse(settled.entries.front(), "they did not"));
    EXPECT_TRUE(alert("release.owner", kStore)->finding.headline.starts_with("4.0 lb"));
}

TEST_F(LawKeptTest, ReversingTheChargeEndsItAndTheOwnersOwnGasIsNone) {
    const Recorded charge = movedOut("A101", "3", kStore);
    expectRecorded(charge);
    expectRecorded(m_shop->reverse(charge.entries.front(), "it was another system"));
    EXPECT_FALSE(alert("release.owner", kStore));
    later();
    expectRecorded(movedOut("A101", "3", "system:ST-ALDER/GYM-1"));
    EXPECT_FALSE(alert("release.owner", "system:ST-ALDER/GYM-1")) << "another site of the same owner's";
}

// What was charged before a building was sold was its owner's.
TEST_F(LawKeptTest, ASaleDoesNotAccuseEarlierCharges) {
    expectRecorded(movedOut("A101", "3", "system:ST-ALDER/GYM-1"));
    later();
    System sold = *systemNamed(*m_shop, "ST-ALDER/GYM-1");
    sold.customer = "Brightwater Grocers";
    expectRecorded(m_shop->record(draftsOf(*m_shop, sold)));
    EXPECT_FALSE(alert("release.owner", "system:ST-ALDER/GYM-1"));
    later();
    expectRecorded(movedOut("A101", "1", "system:ST-ALDER/GYM-1"));
    EXPECT_TRUE(alert("release.owner", "system:ST-ALDER/GYM-1"));
}

TEST_F(LawKeptTest, WhatWasLetOutStaysOpenOnTheCylinderWhateverBecomesOfIt) {
    const Recorded vented = movedOut("A101", "2", "atmosphere");
    expectRecorded(vented);
    const auto open = alert("release.venting", "cylinder:A101");
    ASSERT_TRUE(open);
    EXPECT_EQ(open->finding.severity, Severity::refusal);
    EXPECT_NE(open->finding.citation.find("82.154"), std::string::npos) << open->finding.citation;
    EXPECT_NE(open->finding.headline.find("2.0 lb of R-410A of St. Alder Schools"), std::string::npos)
        << open->finding.headline;
    EXPECT_NE(named(findingsFor("A101"), "release.venting"), nullptr);
    const auto told =
        answered(*m_shop, *questionNamed("nonconforming"), {m_shop->today(), m_shop->today(), ""});
    ASSERT_TRUE(told);
    const auto& rows = told.value().table.rows;
    EXPECT_TRUE(
        std::any_of(rows.begin(), rows.end(), [](const auto& row) { return row[2] == "release.venting"; }));
    later();
    expectRecorded(movedOut("A101", "3", "system:ST-ALDER/RTU-3"));
    expectRecorded(retire(*m_shop, "A101", "scrapped"));
    EXPECT_TRUE(alert("release.venting", "cylinder:A101"));
    later();
    expectRecorded(
        overrule(*m_shop, "release.venting", "cylinder:A101", "the valve was torn off in a crash"));
    EXPECT_FALSE(alert("release.venting", "cylinder:A101"));
    EXPECT_EQ(named(findingsFor("A101"), "release.venting"), nullptr);
}

// Carbon dioxide is exempt in any use (82.154(a)(1)).
TEST_F(LawKeptTest, AReversedReleaseAndExemptGasAreNone) {
    const Recorded vented = movedOut("A101", "2", "atmosphere");
    expectRecorded(vented);
    expectRecorded(m_shop->reverse(vented.entries.front(), "it went into A102"));
    EXPECT_FALSE(alert("release.venting", "cylinder:A101"));
    later();
    expectRecorded(movedIn("A102", "3", "supplier:Estuary Supply", "R-744"));
    expectRecorded(movedOut("A102", "3", "atmosphere"));
    EXPECT_FALSE(alert("release.venting", "cylinder:A102"));
}
