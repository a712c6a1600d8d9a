// Gas that burns in a cylinder of which nothing says whether it is rated for that, and out of a system that
// is for none: both stay open. That flammable gas goes only into what is rated for it is common practice.
// Safety groups of ASHRAE 34, from memory: R-32 A2L, R-290 A3, R-22 and R-410A A1. Division 2.1: 49 CFR
// 172.101.
#include "core/shop/burning.h"
#include "tests/shop/counter_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class BurningTest : public CounterLawTest {
protected:
    void SetUp() override {
        CounterLawTest::SetUp();
        const System loft{"ST-ALDER", "LOFT", "St. Alder Schools", "R-32", lb("20"), "comfort cooling"};
        expectRecorded(m_shop->record(draftsOf(*m_shop, loft)));
    }
};

} // namespace

TEST_F(BurningTest, GasThatBurnsInACylinderOfUnknownRatingStaysOpenUntilTheRatingIsEntered) {
    const Review before = review(*m_shop, facts("A101", "8", "system:ST-ALDER/LOFT", {}));
    const Finding* warned = named(before.findings, "contents.flammable");
    ASSERT_NE(warned, nullptr);
    EXPECT_EQ(warned->severity, Severity::caution);
    EXPECT_NE(warned->headline.find("Holds R-32, which burns"), std::string::npos) << warned->headline;
    const Recorded done = movedIn("A101", "8", "system:ST-ALDER/LOFT");
    expectRecorded(done);
    EXPECT_NE(named(done.findings, "contents.flammable"), nullptr);
    EXPECT_NE(named(findingsFor("A101"), "contents.flammable"), nullptr);
    EXPECT_TRUE(alert("contents.flammable", "cylinder:A101"));
    EXPECT_EQ(overrule(*m_shop, "contents.flammable", "cylinder:A101", "busy").outcome, Outcome::notRecorded);
    later();
    expectRecorded(restateUse(*m_shop, "A101", {.flammableRated = true}, "left-hand thread"));
    EXPECT_EQ(named(findingsFor("A101"), "contents.flammable"), nullptr);
    EXPECT_FALSE(alert("contents.flammable", "cylinder:A101"));
    later();
    expectRecorded(restateUse(*m_shop, "A101", {.flammableRated = false}, "misread"));
    ASSERT_NE(named(findingsFor("A101"), "contents.flammable"), nullptr);
    EXPECT_EQ(named(findingsFor("A101"), "contents.flammable")->severity, Severity::refusal);
}

TEST_F(BurningTest, ADecantTakesTheCautionAlong) {
    expectRecorded(movedIn("A101", "8", "system:ST-ALDER/LOFT"));
    later();
    const Decant over{"A101", "A102", lb("8"), {}, {}};
    EXPECT_NE(named(review(*m_shop, over).findings, "plan.flammable"), nullptr);
    expectRecorded(decant(*m_shop, over));
    EXPECT_FALSE(alert("contents.flammable", "cylinder:A101"));
    EXPECT_TRUE(alert("contents.flammable", "cylinder:A102"));
}

TEST_F(BurningTest, OrdinaryGasAndNonflammableMixturesRaiseNone) {
    expectRecorded(movedIn("A101", "5", "system:ST-ALDER/RTU-3"));
    EXPECT_EQ(named(findingsFor("A101"), "contents.flammable"), nullptr);
    // R-410A has R-32 in it; with R-22 it is a blend of two A1 compositions, 2.2 on the road.
    expectRecorded(movedIn("A101", "1", "system:HARBOR/DOCK-1"));
    EXPECT_NE(named(findingsFor("A101"), "contents.mixed"), nullptr);
    EXPECT_EQ(named(findingsFor("A101"), "contents.flammable"), nullptr);
    // With propane it goes as 2.1.
    expectRecorded(movedIn("A101", "2", "system:ST-ALDER/RTU-3", "R-290"));
    ASSERT_NE(named(findingsFor("A101"), "contents.flammable"), nullptr);
    EXPECT_NE(named(findingsFor("A101"), "contents.flammable")->headline.find("may burn"), std::string::npos);
}

TEST_F(BurningTest, TheClassOnTheRoadDecides) {
    EXPECT_EQ(burnsOf(*m_shop, "R-290"), Burns::yes);
    EXPECT_EQ(burnsOf(*m_shop, "R-32"), Burns::yes);
    EXPECT_EQ(burnsOf(*m_shop, "R-410A"), Burns::no);
    EXPECT_EQ(burnsOf(*m_shop, "R-410A:0.825+R-22:0.175"), Burns::no);
    EXPECT_EQ(burnsOf(*m_shop, "R-410A:0.9+R-290:0.1"), Burns::yes);
    EXPECT_EQ(burnsOf(*m_shop, "R-1234ze(E)"), Burns::no) << "A2L, yet 2.2: UN 3163";
    // A toxic part in a mixture has no entry on the road: who classes it is a qualified person.
    EXPECT_EQ(burnsOf(*m_shop, "R-22:0.9+R-717:0.1"), Burns::doubt);
    EXPECT_EQ(burnsOf(*m_shop, "unknown"), Burns::doubt);
}
