// Plans that name a method of recovery. Push-pull above 10 lb, never on a heat pump, a cylinder that starts
// with at most 5 lb: common practice of the trade, from memory; the rows of the table methods carry it. That
// a machine is cleared between refrigerants: appendix B3 of 40 CFR 82 subpart F and AHRI 740 (RP-27). Room to
// spare: RP-28 (what comes out can be more than the nameplate says).
#include "core/shop/recovery_method.h"

#include "core/shop/machines.h"
#include "core/shop/plan_margin.h"
#include "tests/shop/week_register.h"
#include "tests/shop/week_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class PlanMethodTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        ASSERT_TRUE(registerWeek(*m_shop));
        std::vector<Draft> drafts;
        for (const System& system :
             {System{"LOFT", "HP-1", "", "R-410A", lb("14"), "Heat-pump, comfort cooling"},
              System{"LOFT", "OLD", "", "R-410A", std::nullopt, "comfort cooling"},
              System{"LOFT", "TEN", "", "R-410A", lb("10"), "comfort cooling"},
              System{"LOFT", "MORE", "", "R-410A", lb("10.1"), ""}}) {
            for (const Draft& draft : draftsOf(*m_shop, system)) {
                drafts.push_back(draft);
            }
        }
        expectRecorded(m_shop->record(drafts));
    }
    [[nodiscard]] Proposal plan(const char* system, const char* expected, Method method,
                                const char* machine = "") {
        JobPlan plan;
        plan.system = system;
        plan.expected = lb(expected);
        plan.method = method;
        plan.machine = machine;
        auto proposal = propose(*m_shop, plan);
        EXPECT_TRUE(proposal) << proposal.error().text();
        return proposal ? std::move(proposal).value() : Proposal{};
    }
    static std::vector<Finding> named(const std::vector<Finding>& findings, const std::string& rule) {
        std::vector<Finding> its;
        std::copy_if(findings.begin(), findings.end(), std::back_inserter(its),
                     [&](const Finding& finding) { return finding.rule == rule; });
        return its;
    }
};

} // namespace

TEST_F(PlanMethodTest, WhoNamesNoMethodIsAskedNothing) {
    EXPECT_TRUE(plan("LOFT/HP-1", "9", Method::unsaid).findings.empty());
}

TEST_F(PlanMethodTest, PushPullOnlyAboveTenPounds) {
    const Proposal ten = plan("LOFT/TEN", "8", Method::pushPull);
    EXPECT_TRUE(ten.refused());
    const auto least = named(ten.findings, "plan.push-pull");
    ASSERT_FALSE(least.empty());
    EXPECT_EQ(least.front().severity, Severity::refusal);
    EXPECT_EQ(least.front().firmness, Firmness::practice);
    EXPECT_EQ(least.front().headline,
              "No push-pull on LOFT/TEN: its full charge of 10.0 lb is not more than 10.0 lb.");
    EXPECT_EQ(least.front().row, "methods:1");
    EXPECT_FALSE(plan("LOFT/MORE", "8", Method::pushPull).refused());
    EXPECT_FALSE(plan("LOFT/TEN", "8", Method::liquid).refused());
}

TEST_F(PlanMethodTest, AHeatPumpIsRefusedAndWhatIsNotOnFileIsAsked) {
    const Proposal pump = plan("LOFT/HP-1", "12", Method::pushPull);
    EXPECT_TRUE(pump.refused());
    EXPECT_NE(named(pump.findings, "plan.push-pull").front().headline.find("heat pump"), std::string::npos);
    // The charge is not on file, and so little may be all there is; the kind says nothing of a valve.
    const Proposal old = plan("LOFT/OLD", "9", Method::pushPull);
    EXPECT_FALSE(old.refused());
    const auto asked = named(old.findings, "plan.push-pull");
    ASSERT_EQ(asked.size(), 2U);
    EXPECT_EQ(asked[0].severity, Severity::note);
    EXPECT_NE(asked[0].headline.find("full charge is not on file"), std::string::npos);
    EXPECT_NE(asked[1].headline.find("The books do not know"), std::string::npos);
    // More is expected than the least: it holds that much.
    EXPECT_EQ(named(plan("LOFT/OLD", "11", Method::pushPull).findings, "plan.push-pull").size(), 1U);
}

TEST_F(PlanMethodTest, TheStepsAreListedInTheirOrder) {
    const auto steps = named(plan("ST-ALDER/RTU-3", "30", Method::pushPull).findings, "plan.method");
    ASSERT_EQ(steps.size(), 1U);
    ASSERT_EQ(steps.front().working.size(), 7U);
    EXPECT_NE(steps.front().working[3].find("4. Cross-charge"), std::string::npos);
    EXPECT_NE(steps.front().working[6].find("7. Purge the machine"), std::string::npos);
    EXPECT_EQ(steps.front().severity, Severity::note);
    for (const Method method : {Method::liquid, Method::vapour}) {
        EXPECT_EQ(named(plan("ST-ALDER/RTU-3", "30", method).findings, "plan.method").size(), 1U);
    }
}

TEST_F(PlanMethodTest, ACylinderForPushPullStartsNearlyEmptyAndIsWatched) {
    // A105 holds 20 lb of R-410A of the grocers: first choice for their system, but not for push-pull.
    const auto serialsOf = [](const Proposal& proposal) {
        std::vector<std::string> serials;
        for (const Candidate& one : proposal.chosen) {
            serials.push_back(one.serial);
        }
        return serials;
    };
    EXPECT_EQ(serialsOf(plan("BRIGHTWATER/STORE-2", "15", Method::unsaid)), std::vector<std::string>{"A105"});
    const Proposal pushed = plan("BRIGHTWATER/STORE-2", "15", Method::pushPull);
    EXPECT_EQ(serialsOf(pushed), std::vector<std::string>{"A107"});
    const auto left = std::find_if(pushed.leftOut.begin(), pushed.leftOut.end(),
                                   [](const LeftOut& one) { return one.serial == "A105"; });
    ASSERT_NE(left, pushed.leftOut.end());
    EXPECT_EQ(left->rule, "plan.push-pull-start");
    EXPECT_EQ(left->reason, "Holds 20.0 lb: for push-pull it starts with no more than 5.0 lb.");
    const auto watched = named(pushed.findings, "plan.overfill-sensor");
    ASSERT_EQ(watched.size(), 1U);
    EXPECT_EQ(watched.front().subject, "cylinder:A107");
    EXPECT_EQ(watched.front().severity, Severity::caution);
    NewCylinder sensed = weekCylinder("S1", "DOT-4BA400", "47.7", "27.0", "2024-10");
    sensed.plate.overfillSensor = true;
    CylinderState withSensor;
    withSensor.plate = sensed.plate;
    EXPECT_FALSE(sensorFinding(*m_shop, withSensor, Method::pushPull, m_shop->today()));
    EXPECT_FALSE(sensorFinding(*m_shop, CylinderState{}, Method::liquid, m_shop->today()));
}

TEST_F(PlanMethodTest, TheMachineOfThePlanIsCleared) {
    Machine machine;
    machine.name = "RM-1";
    expectRecorded(m_shop->record({draftOf(*m_shop, machine)}));
    CheckIn facts;
    facts.serial = "A103";
    facts.grossAfter = lb("33");
    facts.from = "system:HARBOR/DOCK-1";
    facts.machine = "RM-1";
    expectRecorded(checkIn(*m_shop, facts));
    const Proposal cleared = plan("ST-ALDER/RTU-3", "15", Method::unsaid, "RM-1");
    ASSERT_EQ(named(cleared.findings, "machine.clear").size(), 1U);
    EXPECT_FALSE(cleared.refused());
    EXPECT_TRUE(plan("ST-ALDER/RTU-3", "15", Method::unsaid, "RM-9").refused());
}

TEST_F(PlanMethodTest, TheMarginIsKeptFree) {
    // A105 has 40.5 - 20.0 lb of room (worked example of the week): 18.6 and a tenth of it just fits.
    JobPlan plan;
    plan.system = "BRIGHTWATER/STORE-2";
    plan.expected = lb("18.6");
    EXPECT_EQ(propose(*m_shop, plan).value().chosen.front().serial, "A105");
    plan.margin = readMargin(*m_shop, "10 %", plan.expected).value();
    EXPECT_EQ(propose(*m_shop, plan).value().chosen.front().serial, "A105");
    plan.margin = readMargin(*m_shop, "12%", plan.expected).value();
    EXPECT_NE(propose(*m_shop, plan).value().chosen.front().serial, "A105");
    plan.expected = lb("500");
    EXPECT_EQ(propose(*m_shop, plan).value().problem,
              "No cylinders in the shop have lawful room for 500.0 lb and 2.2 lb of margin of R-410A.");
    plan.margin = Mass::fromMilligrams(-1);
    EXPECT_FALSE(propose(*m_shop, plan));
}

TEST_F(PlanMethodTest, WhatIsTypedIsReadOrRefusedByName) {
    EXPECT_EQ(readMethod(" Push-Pull ").value(), Method::pushPull);
    EXPECT_EQ(readMethod("").value(), Method::unsaid);
    EXPECT_EQ(readMethod("pull").error().text(),
              "'pull' is no method of recovery; one of liquid, vapour, push-pull");
    EXPECT_EQ(readMargin(*m_shop, "10 %", Mass::fromMilligrams(1'001)).value().milligrams(), 101);
    EXPECT_EQ(readMargin(*m_shop, "3", lb("1")).value(), lb("3"));
    EXPECT_EQ(readMargin(*m_shop, "", lb("1")).value(), Mass());
    for (const char* wrong : {"-1 %", "101 %", "ten %", "%", "5 psi", "-3 lb"}) {
        EXPECT_FALSE(readMargin(*m_shop, wrong, lb("1"))) << wrong;
    }
}
