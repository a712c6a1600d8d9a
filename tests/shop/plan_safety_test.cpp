// What a plan takes first where it is a matter of safety, and what it never takes. Flammable gas only into
// what is rated for it, unknown gas into a marked clean empty with the lowest density that could be present:
// common practice of the trade. Overfilled is not offered for transport: 49 CFR 173.301(a)(8), 173.304a.
#include <regex>

#include "core/shop/day_plan.h"
#include "core/shop/plan_rules.h"
#include "tests/shop/week_register.h"
#include "tests/shop/week_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr const char* kMorgan = "MORGAN VALE";

class PlanSafetyTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        ASSERT_TRUE(registerWeek(*m_shop));
    }
    static JobPlan of(const char* refrigerant, const char* expected, Purpose purpose = Purpose::recover) {
        JobPlan plan;
        plan.purpose = purpose;
        plan.refrigerant = refrigerant;
        plan.expected = lb(expected);
        return plan;
    }
    Proposal proposed(const JobPlan& plan) {
        auto proposal = propose(*m_shop, plan);
        EXPECT_TRUE(proposal) << proposal.error().text();
        return proposal ? std::move(proposal).value() : Proposal{};
    }
    static std::vector<std::string> taken(const Proposal& proposal) {
        std::vector<std::string> serials;
        for (const Candidate& one : proposal.chosen) {
            serials.push_back(one.serial);
        }
        return serials;
    }
    static std::vector<std::string> about(const std::vector<Finding>& findings, const std::string& rule) {
        std::vector<std::string> subjects;
        for (const Finding& finding : findings) {
            if (finding.rule == rule && finding.severity >= Severity::caution) {
                subjects.push_back(finding.subject);
            }
        }
        return subjects;
    }
    static LeftOut leftOut(const Proposal& proposal, const std::string& serial) {
        for (const LeftOut& one : proposal.leftOut) {
            if (one.serial == serial) {
                return one;
            }
        }
        return {};
    }
    void rate(const char* serial) {
        Use rated;
        rated.flammableRated = true;
        expectRecorded(restateUse(*m_shop, serial, rated, "marked"));
    }
    using Serials = std::vector<std::string>;
};

} // namespace

TEST_F(PlanSafetyTest, WhatBurnsGoesFirstIntoWhatIsRatedForIt) {
    // Without a word on record the smallest is best, and its caution stands in the plan.
    EXPECT_EQ(taken(proposed(of("R-290", "3"))), Serials{"A107"});
    EXPECT_EQ(about(proposed(of("R-290", "3")).findings, "plan.flammable"), Serials{"cylinder:A107"});
    rate("A102");
    const Proposal proposal = proposed(of("R-290", "3"));
    EXPECT_EQ(taken(proposal), Serials{"A102"});
    EXPECT_EQ(about(proposal.findings, "plan.flammable"), Serials());
    // More than it takes: others go as well, each with its caution.
    const Proposal more = proposed(of("R-290", "25"));
    ASSERT_EQ(more.chosen.size(), 2U) << more.problem;
    const Serials all = taken(more);
    const bool withRated = std::find(all.begin(), all.end(), "A102") != all.end();
    EXPECT_EQ(about(more.findings, "plan.flammable").size(), withRated ? 1U : 2U);
    // Gas that does not burn is taken as before.
    EXPECT_EQ(taken(proposed(of("R-134a", "3"))), Serials{"A107"});
}

TEST_F(PlanSafetyTest, ThePlanOfADayDoesTheSame) {
    rate("A102");
    const auto job = [](const char* mass) {
        DayJob its;
        its.person = kMorgan;
        its.job = mass;
        its.plan = of("R-290", mass);
        return its;
    };
    const auto plan = planDay(*m_shop, m_shop->today(), {job("3")});
    ASSERT_TRUE(plan && plan.value().answers.front().served());
    EXPECT_EQ(plan.value().answers.front().taken.front().cylinder.serial, "A102");
    // Two technicians: one of them has the rated one, and the other is not left without.
    DayJob other = job("4");
    other.person = "JULES ARBOR";
    const auto both = planDay(*m_shop, m_shop->today(), {job("3"), other});
    ASSERT_TRUE(both);
    EXPECT_EQ(both.value().unserved, 0U);
    std::size_t cautions = 0;
    for (const DayAnswer& answer : both.value().answers) {
        cautions += about(answer.findings, "plan.flammable").size();
    }
    EXPECT_EQ(cautions, 1U);
}

TEST_F(PlanSafetyTest, NothingOverfilledTravelsToACharge) {
    NewCylinder over = weekCylinder("OVER", "DOT-4BA400", "47.7", "27.9", "2024-10");
    over.evacuated = false;
    over.content = lb("46");
    over.refrigerant = "R-410A";
    over.contentState = GasState::unused;
    over.source = "supplier:Estuary Supply";
    expectRecorded(registerCylinders(*m_shop, {over}));
    const Proposal proposal = proposed(of("R-410A", "24", Purpose::charge));
    EXPECT_EQ(taken(proposal), Serials{"D001"});
    const LeftOut why = leftOut(proposal, "OVER");
    EXPECT_EQ(why.rule, "plan.carriage") << why.reason;
    CheckOut out;
    out.person = kMorgan;
    out.purpose = Purpose::charge;
    out.refrigerant = "R-410A";
    out.serials = {"OVER"};
    out.expected = lb("24");
    const Review reviewed = review(*m_shop, out);
    ASSERT_TRUE(reviewed.refused());
    EXPECT_EQ(reviewed.findings.front().rule, "plan.carriage");
    EXPECT_NE(reviewed.findings.front().citation.find("49 CFR"), std::string::npos)
        << reviewed.findings.front().citation;
}

// A101 was made in 2021-03: after five years it is not filled any more until it is tested (49 CFR 180.209).
TEST_F(PlanSafetyTest, ADayThatHasPassedIsNoDayOfReturn) {
    JobPlan plan = of("R-410A", "32");
    EXPECT_EQ(leftOut(proposed(plan), "A101").rule, "plan.retest");
    plan.back = Date::parse("2026-02-01").value();
    const auto refused = propose(*m_shop, plan);
    ASSERT_FALSE(refused);
    EXPECT_NE(refused.error().text().find("2026-02-01"), std::string::npos) << refused.error().text();
    plan.back.reset();
    plan.day = Date::parse("2026-09-13").value();
    EXPECT_FALSE(propose(*m_shop, plan)) << "yesterday";
    plan.day = Date::parse("2026-09-20").value();
    EXPECT_TRUE(propose(*m_shop, plan));
    plan.back = Date::parse("2026-09-19").value();
    EXPECT_FALSE(propose(*m_shop, plan)) << "back before the work";
    CheckOut out;
    out.person = kMorgan;
    out.system = "ST-ALDER/RTU-3";
    out.serials = {"A101"};
    out.back = Date::parse("2026-02-01").value();
    const Recorded given = checkOut(*m_shop, out);
    EXPECT_EQ(given.outcome, Outcome::notRecorded);
    EXPECT_TRUE(std::any_of(given.findings.begin(), given.findings.end(),
                            [](const Finding& one) { return one.rule == "plan.back"; }));
}

// A day of the work later in the year counts for the retest as the day of return does: A105, made 2022-10, is
// due in 2027-10.
TEST_F(PlanSafetyTest, TheDayOfTheWorkDecidesWhatIsInDate) {
    JobPlan plan;
    plan.system = "BRIGHTWATER/STORE-2";
    plan.expected = lb("15");
    EXPECT_EQ(taken(proposed(plan)), Serials{"A105"});
    plan.day = Date::parse("2027-11-02").value();
    EXPECT_EQ(leftOut(proposed(plan), "A105").rule, "plan.retest");
}

TEST_F(PlanSafetyTest, UnknownGasHasACleanEmptyAndNoLimit) {
    const Proposal proposal = proposed(of("unknown", "10"));
    ASSERT_EQ(proposal.chosen.size(), 1U) << proposal.problem;
    for (const auto* list : {&proposal.chosen, &proposal.others}) {
        for (const Candidate& one : *list) {
            EXPECT_FALSE(one.limitKnown) << one.serial;
            EXPECT_EQ(one.grossToStop, Mass()) << one.serial;
            const auto state = m_shop->store().cylinder(one.serial);
            EXPECT_TRUE(state.value()->evacuated && state.value()->content.empty()) << one.serial;
        }
    }
    EXPECT_EQ(about(proposal.findings, "plan.unknown-gas").size(), 1U);
    EXPECT_EQ(leftOut(proposal, "A103").rule, "plan.contents");
    // Propane, 0.49 kg/l at 25 degC (handbook tables): 80 % of 47.7 lb of water are 18.7 lb, of 26.2 lb 10.3.
    EXPECT_EQ(proposed(of("unknown", "18")).chosen.size(), 1U);
    EXPECT_EQ(proposed(of("unknown", "22")).chosen.size(), 2U);
    CheckOut out;
    out.person = kMorgan;
    out.refrigerant = "unknown";
    out.serials = {taken(proposal).front()};
    out.expected = lb("10");
    expectRecorded(checkOut(*m_shop, out));
}

// R-410A at 35 degC: 2140 kPa absolute, some 296 psig; its liquid 1059 kg/m3 at 25 degC, 1002 at 35 degC
// (handbook tables, from memory), so 80 % at 25 degC are some 84 % there, less what evaporates.
TEST_F(PlanSafetyTest, TheAmbientSaysLevelAndPressureBesideTheLimit) {
    JobPlan plan;
    plan.system = "ST-ALDER/RTU-3";
    plan.expected = lb("32");
    EXPECT_EQ(proposed(plan).chosen.front().atAmbient, "");
    plan.ambient = Temperature::fromCelsius(35);
    const std::string text = proposed(plan).chosen.front().atAmbient;
    std::smatch parts;
    ASSERT_TRUE(std::regex_search(text, parts, std::regex("at 95 °F: ([0-9.]+) psig, ([0-9]+) % liquid")))
        << text;
    EXPECT_NEAR(std::stod(parts[1]), 296, 4);
    EXPECT_NEAR(std::stod(parts[2]), 84, 2);
    plan.ambient = Temperature::fromCelsius(90);
    EXPECT_FALSE(propose(*m_shop, plan));
}

// 40 CFR 82.154(d): used gas goes back to its owner's equipment only; which lots it is stands in the refusal.
TEST_F(PlanSafetyTest, RefusedWithTheLotsNamed) {
    CheckIn in;
    in.serial = "A102";
    in.from = "system:ST-ALDER/GYM-1";
    in.grossAfter = lb("36.1"); // 8 lb
    expectRecorded(checkIn(*m_shop, in));
    const auto first = m_shop->store().headSeq();
    setTime("2026-09-20 10:00");
    in.from = "system:ST-ALDER/RTU-3";
    in.grossAfter = lb("41.1"); // 5 lb more
    expectRecorded(checkIn(*m_shop, in));
    JobPlan plan;
    plan.purpose = Purpose::charge;
    plan.system = "BRIGHTWATER/STORE-2";
    plan.expected = lb("4");
    const LeftOut why = leftOut(proposed(plan), "A102");
    EXPECT_EQ(why.rule, "plan.used-gas");
    const std::string lot = fmt::format("8.0 lb entry {} of 2026-09-14, from system ST-ALDER/GYM-1", first);
    EXPECT_NE(why.reason.find(lot), std::string::npos) << why.reason;
    EXPECT_NE(why.reason.find("5.0 lb entry"), std::string::npos) << why.reason;
    EXPECT_NE(why.reason.find("13.0 lb recovered of St. Alder Schools"), std::string::npos) << why.reason;
}
