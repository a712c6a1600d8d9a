// Recovered gas never goes on top of new or reclaimed gas, nor on another owner's: used gas may be recharged
// only into the same owner's equipment unless it was reclaimed (40 CFR 82.154(d)), and gas that is used in
// part is used. The brute force shares no code with the planner: it goes by what was registered, and by the
// rooms that the cards of the cylinders show.
#include <random>

#include "core/shop/day_checkout.h"
#include "core/shop/findings.h"
#include "core/shop/plan_rules.h"
#include "tests/shop/week_register.h"
#include "tests/shop/week_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr const char* kMorgan = "MORGAN VALE";
constexpr const char* kGrocers = "Brightwater Grocers";

class PlanOwnerTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        ASSERT_TRUE(registerWeek(*m_shop));
    }
    static NewCylinder holding(const std::string& serial, const std::string& mass, GasState state,
                               const std::string& owner, const std::string& refrigerant = "R-410A") {
        NewCylinder cylinder = weekCylinder(serial, "DOT-4BA400", "47.7", "27.9", "2024-10");
        if (mass != "0") {
            cylinder.evacuated = false;
            cylinder.content = lb(mass);
            cylinder.refrigerant = refrigerant;
            cylinder.contentOwner = owner;
            cylinder.contentState = state;
        }
        return cylinder;
    }
    static JobPlan recovery(const char* expected) {
        JobPlan plan;
        plan.system = "BRIGHTWATER/STORE-2";
        plan.expected = lb(expected);
        return plan;
    }
    Proposal proposed(const JobPlan& plan) {
        auto proposal = propose(*m_shop, plan);
        EXPECT_TRUE(proposal) << proposal.error().text();
        return proposal ? std::move(proposal).value() : Proposal{};
    }
    static std::string ruleOf(const Proposal& proposal, const std::string& serial) {
        for (const LeftOut& one : proposal.leftOut) {
            if (one.serial == serial) {
                return one.rule;
            }
        }
        return "fits";
    }
    static std::vector<std::string> rules(const Review& review) {
        std::vector<std::string> all;
        for (const Finding& finding : review.findings) {
            if (finding.severity >= Severity::refusal) {
                all.push_back(finding.rule);
            }
        }
        return all;
    }
};

} // namespace

TEST_F(PlanOwnerTest, NewAndReclaimedGasIsNotSpoilt) {
    expectRecorded(registerCylinders(*m_shop, {holding("N1", "20.6", GasState::unused, ""),
                                               holding("N2", "20.6", GasState::reclaimed, ""),
                                               holding("N3", "20.6", GasState::unused, kGrocers),
                                               holding("N4", "20.6", GasState::recovered, ""),
                                               holding("N5", "20.6", GasState::recovered, kGrocers)}));
    const Proposal proposal = proposed(recovery("5"));
    EXPECT_EQ(ruleOf(proposal, "N1"), "plan.clean-gas");
    EXPECT_EQ(ruleOf(proposal, "N2"), "plan.clean-gas");
    EXPECT_EQ(ruleOf(proposal, "N3"), "plan.clean-gas") << "their own new gas is spoilt as well";
    EXPECT_EQ(ruleOf(proposal, "N4"), "plan.owner");
    EXPECT_EQ(ruleOf(proposal, "N5"), "fits");
    for (const LeftOut& one : proposal.leftOut) {
        if (one.serial == "N1") {
            EXPECT_EQ(one.reason, "Holds 20.6 lb of new R-410A: recovered gas on top makes all of it used.");
        }
    }
}

TEST_F(PlanOwnerTest, TheCheckOutAndThePlanOfADayRefuseItToo) {
    expectRecorded(registerCylinders(*m_shop, {holding("N1", "20.6", GasState::unused, "")}));
    CheckOut out;
    out.person = kMorgan;
    out.system = "BRIGHTWATER/STORE-2";
    out.serials = {"N1"};
    out.expected = lb("5");
    const Recorded refused = checkOut(*m_shop, out);
    EXPECT_EQ(refused.outcome, Outcome::notRecorded);
    ASSERT_FALSE(refused.findings.empty());
    EXPECT_EQ(refused.findings.front().rule, "plan.clean-gas");
    EXPECT_NE(refused.findings.front().citation.find("82.154"), std::string::npos)
        << refused.findings.front().citation;
    DayJob job;
    job.person = kMorgan;
    job.plan = recovery("5");
    const auto day = planDay(*m_shop, m_shop->today(), {job});
    ASSERT_TRUE(day);
    ASSERT_TRUE(day.value().answers.front().served());
    EXPECT_NE(day.value().answers.front().taken.front().cylinder.serial, "N1");
    EXPECT_EQ(day.value().answers.front().stay.at("plan.clean-gas"), 1);
}

TEST_F(PlanOwnerTest, ADecantKeepsUsedAndCleanApart) {
    expectRecorded(registerCylinders(
        *m_shop, {holding("N1", "5", GasState::unused, ""), holding("N2", "5", GasState::reclaimed, ""),
                  holding("N3", "5", GasState::recovered, ""), holding("N4", "5", GasState::recovered, ""),
                  holding("N5", "5", GasState::unused, kGrocers)}));
    const auto from = [&](const char* source, const char* target) {
        return rules(review(*m_shop, Decant{source, target, lb("1"), {}, {}}));
    };
    using Rules = std::vector<std::string>;
    EXPECT_EQ(from("N1", "N2"), Rules()) << "neither was used";
    EXPECT_EQ(from("N3", "N4"), Rules()) << "both were, of one owner";
    EXPECT_EQ(from("N3", "N1"), Rules{"plan.clean-gas"});
    EXPECT_EQ(from("N1", "N3"), Rules{"plan.clean-gas"});
    EXPECT_EQ(from("N1", "N5"), Rules{"plan.owner"});
    EXPECT_EQ(from("N3", "A102"), Rules()) << "a clean empty";
    // No target for what must leave an overfilled one spoils anything.
    const auto source = m_shop->store().cylinder("N3");
    EXPECT_EQ(Targets(*m_shop, m_shop->today()).of(*source.value(), lb("1")), "N4");
}

// Whichever cylinders are proposed, they are the fewest of those that brute force finds fit, for any owner.
TEST_F(PlanOwnerTest, BruteForceFindsNoFewerAndNoOthersFit) {
    struct Known {
        std::string serial;
        std::string mass;
        GasState state;
        std::string owner;
        std::string refrigerant;
    };
    std::mt19937 random(20260914);
    const auto pick = [&](std::size_t most) { return random() % most; };
    const std::vector<std::string> owners = {"", kGrocers, "St. Alder Schools"};
    const std::vector<GasState> states = {GasState::unused, GasState::recovered, GasState::recycled,
                                          GasState::reclaimed};
    std::vector<Known> fleet;
    std::vector<NewCylinder> cylinders;
    for (int number = 0; number < 14; ++number) {
        Known one{fmt::format("B{:02}", number), std::to_string(pick(4) == 0 ? 0 : 3 + pick(30)),
                  states[pick(states.size())], owners[pick(owners.size())], pick(6) == 0 ? "R-22" : "R-410A"};
        cylinders.push_back(holding(one.serial, one.mass, one.state, one.owner, one.refrigerant));
        fleet.push_back(one);
    }
    expectRecorded(registerCylinders(*m_shop, cylinders));
    for (const char* serial : {"A101", "A102", "A103", "A104", "A105", "A107", "D001"}) { // only those drawn
        expectRecorded(inspect(*m_shop, serial, "lost", ""));
    }
    for (const std::string& owner : owners) {
        for (const int expected : {4, 20, 45, 70, 110}) {
            std::vector<std::pair<std::string, Mass>> fit;
            for (const Known& one : fleet) {
                const bool empty = one.mass == "0";
                const bool same = one.refrigerant == "R-410A" && one.owner == owner &&
                                  (one.state == GasState::recovered || one.state == GasState::recycled);
                if (empty || same) {
                    const auto state = m_shop->store().cylinder(one.serial);
                    fit.emplace_back(one.serial,
                                     limitsFor(*m_shop, *state.value(), empty ? "R-410A" : "").room);
                }
            }
            std::erase_if(fit, [](const auto& one) { return one.second.milligrams() <= 0; });
            std::size_t fewest = 0;
            for (std::uint32_t set = 1; set < 1U << fit.size(); ++set) {
                std::int64_t room = 0;
                std::size_t count = 0;
                for (std::size_t place = 0; place < fit.size(); ++place) {
                    if ((set >> place & 1U) != 0) {
                        room += fit[place].second.milligrams();
                        ++count;
                    }
                }
                if (room >= lb(std::to_string(expected)).milligrams() && (fewest == 0 || count < fewest)) {
                    fewest = count;
                }
            }
            JobPlan plan;
            plan.refrigerant = "R-410A";
            plan.owner = owner;
            plan.expected = lb(std::to_string(expected));
            const Proposal proposal = proposed(plan);
            EXPECT_EQ(proposal.chosen.size(), fewest) << owner << ", " << expected;
            for (const Candidate& one : proposal.chosen) {
                EXPECT_TRUE(std::any_of(fit.begin(), fit.end(),
                                        [&](const auto& its) { return its.first == one.serial; }))
                    << one.serial << " for " << owner;
            }
        }
    }
}
