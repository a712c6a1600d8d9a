// A tare that cannot be, or that cylinders do not have: the weight at which filling stops is tare plus limit
// (49 CFR 173.304a: the filling is a share of the water), so a tare that is too high by a lost point stops it
// when the cylinder has long been full. What is usual is common practice, as in core/shop/usual_tare.h.
#include <algorithm>

#include "core/shop/usual_tare.h"
#include "tests/shop/week_shop.h"
#include "tests/support/week_cylinders.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class UsualTareTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        expectRecorded(registerCylinders(*m_shop, weekCylinders()));
    }
    [[nodiscard]] bool isOpen(const std::string& serial) {
        const auto rules = rulesOf(serial);
        return std::find(rules.begin(), rules.end(), "marks.tare-unusual") != rules.end();
    }
};

} // namespace

// A103 has 26.2 lb of water and 17.0 lb of tare.
TEST_F(UsualTareTest, ARestatedOneIsAskedAboutAndStaysOpenUntilItIsMendedOrExplained) {
    const auto lost = tareQuestion(*m_shop, "A103", lb("171"));
    ASSERT_TRUE(lost);
    EXPECT_NE(lost->wrong.find("a tare of 171.0 lb is unusual"), std::string::npos) << lost->wrong;
    EXPECT_NE(lost->right.find("17.1 lb looks right"), std::string::npos) << lost->right;
    EXPECT_FALSE(tareQuestion(*m_shop, "A103", lb("17.2")));
    EXPECT_FALSE(tareQuestion(*m_shop, "A103", lb("19.4"))) << "2.4 lb of 17.0 are not a seventh";
    const auto other = tareQuestion(*m_shop, "A103", lb("19.6"));
    ASSERT_TRUE(other) << "2.6 lb are more than a seventh, though 19.6 lb is usual for 26.2 lb of water";
    EXPECT_NE(other->wrong.find("2.6 lb more than the one on file, 17.0 lb"), std::string::npos);
    EXPECT_FALSE(isOpen("A103"));
    expectRecorded(restateTare(*m_shop, "A103", lb("171"), "confirmed at the counter"));
    EXPECT_TRUE(isOpen("A103"));
    expectRecorded(restateTare(*m_shop, "A103", lb("17.1"), "the point was lost"));
    EXPECT_FALSE(isOpen("A103"));
    expectRecorded(restateTare(*m_shop, "A103", lb("32"), "confirmed"));
    ASSERT_TRUE(isOpen("A103"));
    expectRecorded(overrule(*m_shop, "marks.tare-unusual", "cylinder:A103", "a steel one, weighed empty"));
    EXPECT_FALSE(isOpen("A103"));
}

TEST_F(UsualTareTest, WhatNoCylinderHasIsNotEntered) {
    const Recorded restated = restateTare(*m_shop, "A103", lb("1400"), "typed");
    EXPECT_FALSE(restated.ok());
    EXPECT_NE(restated.error.wrong.find("cannot be that of a cylinder"), std::string::npos);
    EXPECT_FALSE(restateTare(*m_shop, "A103", lb("0.5"), "typed").ok());
    TestResult tested{"A103", MonthYear::parse("2026-02").value(), {}, {}, {}, lb("1400"), true, {}};
    EXPECT_FALSE(recordTest(*m_shop, tested).ok());
    NewCylinder cylinder = weekCylinder("A300", "DOT-4BA400", "47.7", "27.0", "2025-03");
    EXPECT_FALSE(tareQuestion(*m_shop, cylinder.plate));
    cylinder.plate.tare = lb("2500");
    EXPECT_FALSE(registerCylinder(*m_shop, cylinder).ok());
    cylinder.plate.tare = lb("279");
    EXPECT_TRUE(tareQuestion(*m_shop, cylinder.plate));
    const Review reviewed = review(*m_shop, cylinder);
    EXPECT_FALSE(reviewed.refused());
    EXPECT_TRUE(std::any_of(reviewed.findings.begin(), reviewed.findings.end(),
                            [](const Finding& finding) { return finding.rule == "marks.tare-unusual"; }));
}

// Liquid R-22 is at most 1.52 times as heavy as water (1.35 at 0 degC and 1.41 at -20 degC by handbook
// tables, from memory): 47.7 lb of water never hold 75 lb of it, and they do hold 60.
TEST_F(UsualTareTest, WhatDoesNotGoInIsNotRegistered) {
    NewCylinder cylinder = weekCylinder("A300", "DOT-4BA400", "47.7", "27.0", "2025-03");
    cylinder.refrigerant = "R-22";
    cylinder.content = lb("600");
    const Recorded lost = registerCylinder(*m_shop, cylinder);
    ASSERT_FALSE(lost.ok());
    EXPECT_NE(lost.error.wrong.find("600.0 lb does not go into A300"), std::string::npos) << lost.error.wrong;
    cylinder.content = lb("75");
    EXPECT_FALSE(registerCylinder(*m_shop, cylinder).ok());
    cylinder.content = lb("60"); // overfilled, but it is in there
    expectRecorded(registerCylinder(*m_shop, cylinder));
}

TEST_F(UsualTareTest, OfWhatCameInExchangeTheFirstOddOneIsNamed) {
    const Exchanged good{"A105", "X1", "DOT-4BA400", "47.7 lb", "27.6 lb", "2024-05", ""};
    Exchanged odd = good;
    odd.serial = "X9";
    odd.tare = "270 lb";
    EXPECT_FALSE(tareQuestion(*m_shop, std::vector<Exchanged>{good}));
    const auto asked = tareQuestion(*m_shop, std::vector<Exchanged>{good, odd});
    ASSERT_TRUE(asked);
    EXPECT_NE(asked->wrong.find("X9, which came for A105: a tare of 270.0 lb is unusual"), std::string::npos)
        << asked->wrong;
}

// With 168 lb in place of 16.8 the plan would stop at a weight that the scale never shows.
TEST_F(UsualTareTest, NothingIsPlannedIntoACylinderWhoseTareIsInDoubt) {
    const auto reason = [this]() -> std::string {
        JobPlan plan;
        plan.refrigerant = "R-22";
        plan.expected = lb("5");
        const auto proposal = propose(*m_shop, plan);
        EXPECT_TRUE(proposal);
        for (const LeftOut& one : proposal ? proposal.value().leftOut : std::vector<LeftOut>{}) {
            if (one.serial == "A107") {
                return one.rule;
            }
        }
        return {};
    };
    expectRecorded(evacuate(*m_shop, "A107", ""));
    EXPECT_EQ(reason(), "");
    expectRecorded(restateTare(*m_shop, "A107", lb("168"), "confirmed"));
    EXPECT_EQ(reason(), "marks.tare-unusual");
    expectRecorded(overrule(*m_shop, "marks.tare-unusual", "cylinder:A107", "weighed empty, twice"));
    EXPECT_EQ(reason(), "");
}
