// What an empty cylinder may go out for. Common practice of the trade: an empty holds a rest of what was last
// in it until it is evacuated; recovery cylinders are evacuated before their first use and before they change
// to another refrigerant.
#include <algorithm>

#include "core/shop/plan_rules.h"
#include "tests/shop/week_shop.h"
#include "tests/support/week_cylinders.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class EmptiesTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        for (const System& system : weekSystems()) {
            expectRecorded(m_shop->record(draftsOf(*m_shop, system)));
        }
    }

    /// An empty that nobody evacuated, kept for a refrigerant or for none.
    void enter(const std::string& serial, const std::string& tag = "", bool evacuated = false) {
        NewCylinder cylinder = weekCylinder(serial, "DOT-4BA400", "47.7", "27.0", "2025-03");
        cylinder.evacuated = evacuated;
        cylinder.plate.refrigerant = tag;
        expectRecorded(registerCylinder(*m_shop, cylinder));
    }
    [[nodiscard]] PlanUse planFor(const std::string& serial, const std::string& refrigerant) {
        PlanAsk ask;
        ask.refrigerant = refrigerant;
        ask.back = m_shop->today();
        return planUse(*m_shop, card(*m_shop, serial).value().state, ask);
    }
    [[nodiscard]] static const Finding* named(const PlanUse& use, const std::string& rule) {
        const auto found = std::find_if(use.findings.begin(), use.findings.end(),
                                        [&](const Finding& one) { return one.rule == rule; });
        return found == use.findings.end() ? nullptr : &*found;
    }
};

} // namespace

TEST_F(EmptiesTest, OneOfUnknownPastIsEvacuatedFirst) {
    enter("NEW");
    const PlanUse use = planFor("NEW", "R-410A");
    EXPECT_TRUE(use.fits()) << "nothing is known against it";
    ASSERT_NE(named(use, "plan.evacuation"), nullptr);
    EXPECT_EQ(named(use, "plan.evacuation")->severity, Severity::caution);
    expectRecorded(evacuate(*m_shop, "NEW", "500 microns"));
    EXPECT_EQ(named(planFor("NEW", "R-410A"), "plan.evacuation"), nullptr);
    EXPECT_EQ(planFor("NEW", "R-410A").rank(), 1);
}

TEST_F(EmptiesTest, TakesAgainWhatItHeldLastAndNothingElse) {
    enter("USED");
    fillAndEmpty("USED", "ST-ALDER/RTU-3"); // R-410A
    const PlanUse again = planFor("USED", "R-410A");
    EXPECT_TRUE(again.fits());
    EXPECT_EQ(again.lastHeld, "R-410A");
    EXPECT_EQ(named(again, "plan.evacuation"), nullptr);
    const PlanUse other = planFor("USED", "R-22");
    EXPECT_FALSE(other.fits());
    ASSERT_NE(named(other, "plan.evacuation"), nullptr);
    EXPECT_EQ(named(other, "plan.evacuation")->headline, "Held R-410A and has no evacuation on record.");
    EXPECT_FALSE(planFor("USED", "unknown").fits()) << "an unknown gas goes only into a clean empty";
    expectRecorded(evacuate(*m_shop, "USED", ""));
    EXPECT_TRUE(planFor("USED", "R-22").fits());
}

TEST_F(EmptiesTest, TheTagCountsWhereTheBooksKnowOfNothing) {
    enter("TAGGED", "R-22");
    EXPECT_TRUE(planFor("TAGGED", "R-22").fits());
    EXPECT_TRUE(planFor("TAGGED", "R-22").findings.empty());
    EXPECT_FALSE(planFor("TAGGED", "R-410A").fits());
    // What the books know is stronger than the tag.
    fillAndEmpty("TAGGED", "ST-ALDER/RTU-3"); // R-410A
    EXPECT_FALSE(planFor("TAGGED", "R-22").fits());
    EXPECT_TRUE(planFor("TAGGED", "R-410A").fits());
    enter("CLEAN", "R-22", true);
    ASSERT_NE(named(planFor("CLEAN", "R-410A"), "plan.tag"), nullptr);
    EXPECT_TRUE(planFor("CLEAN", "R-410A").fits());
}

TEST_F(EmptiesTest, OneForMixedGasTakesWhatComes) {
    enter("MIXED", "mixed");
    fillAndEmpty("MIXED", "HARBOR/DOCK-1");
    EXPECT_TRUE(planFor("MIXED", "R-410A").fits());
    EXPECT_TRUE(planFor("MIXED", "R-410A").findings.empty());
}

TEST_F(EmptiesTest, ProposesThoseToBeEvacuatedLastAndSaysWhy) {
    enter("A-UNKNOWN");
    enter("B-USED");
    fillAndEmpty("B-USED", "ST-ALDER/RTU-3"); // R-410A
    enter("C-OTHER");
    fillAndEmpty("C-OTHER", "HARBOR/DOCK-1");
    JobPlan plan;
    plan.system = "ST-ALDER/RTU-3";
    plan.expected = lb("32");
    const auto proposal = propose(*m_shop, plan);
    ASSERT_TRUE(proposal) << proposal.error().text();
    ASSERT_EQ(proposal.value().chosen.size(), 1U);
    EXPECT_EQ(proposal.value().chosen[0].serial, "B-USED");
    EXPECT_EQ(proposal.value().chosen[0].note, "empty, held R-410A last");
    ASSERT_EQ(proposal.value().others.size(), 1U);
    EXPECT_EQ(proposal.value().others[0].note, "empty, to be evacuated first");
    ASSERT_EQ(proposal.value().leftOut.size(), 1U);
    EXPECT_EQ(proposal.value().leftOut[0].rule, "plan.evacuation");
    // What was done all the same is recorded.
    CheckIn facts;
    facts.serial = "C-OTHER";
    facts.grossBefore = lb("27.0");
    facts.grossAfter = lb("40.0");
    facts.from = "system:ST-ALDER/RTU-3";
    expectRecorded(checkIn(*m_shop, facts));
}
