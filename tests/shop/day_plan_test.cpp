// The cylinders of a day for all technicians. Rooms: the week at the counter, whose limits the worked
// examples of tests/rules check: A101 and A102 take 40.5 lb of R-410A each, A107 22.2 lb, A105 20.5 lb on top
// of what it holds for the grocers; D001 holds 25 lb of new R-410A. That push-pull starts nearly empty:
// common practice of the trade, from memory. That the choice is the best is proved in day_search_test.cpp.
#include "core/shop/day_plan.h"

#include "tests/shop/week_register.h"
#include "tests/shop/week_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr const char* kMorgan = "MORGAN VALE";
constexpr const char* kJules = "JULES ARBOR";

class DayPlanTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        ASSERT_TRUE(registerWeek(*m_shop));
        ASSERT_TRUE(testAndEvacuateA101(*m_shop));
    }
    /// To recover from a system, the lines as they come.
    DayJob& recovers(const char* person, const char* system, const char* mass) {
        DayJob& job = m_jobs.emplace_back();
        job.line = static_cast<int>(m_jobs.size()) + 1;
        job.person = person;
        job.job = fmt::format("J-{}", m_jobs.size());
        job.plan.system = system;
        job.plan.expected = lb(mass);
        return job;
    }
    DayPlan planned(std::size_t nodes = kMostDayNodes) {
        auto plan = planDay(*m_shop, m_shop->today(), m_jobs, nodes);
        EXPECT_TRUE(plan) << plan.error().text();
        return plan ? std::move(plan).value() : DayPlan{};
    }
    static const DayAnswer& answerOf(const DayPlan& plan, const std::string& job) {
        return *std::find_if(plan.answers.begin(), plan.answers.end(),
                             [&](const DayAnswer& answer) { return answer.job.job == job; });
    }
    static std::string takenFor(const DayPlan& plan, const std::string& job) {
        std::string text;
        for (const DayTaken& taken : answerOf(plan, job).taken) {
            text +=
                fmt::format("{}{} {}", text.empty() ? "" : ", ", taken.cylinder.serial, shown(taken.share));
        }
        return text;
    }

    std::vector<DayJob> m_jobs;
};

} // namespace

// As the check-out says it. 40 CFR 82.161: whoever opens an appliance is certified.
TEST_F(DayPlanTest, ACertificateThatHasRunOutByThenStandsBesideTheJob) {
    Person person;
    person.name = kJules;
    person.role = "technician";
    person.certificate = "Universal";
    person.certificateExpires = m_shop->today();
    expectRecorded(m_shop->record({draftOf(*m_shop, person)}));
    recovers(kJules, "ST-ALDER/GYM-1", "8");
    const auto cautions = [&](Date day) {
        const auto plan = planDay(*m_shop, day, m_jobs, kMostDayNodes);
        EXPECT_TRUE(plan);
        const auto& findings = plan.value().answers.front().findings;
        return std::count_if(findings.begin(), findings.end(),
                             [](const Finding& one) { return one.rule == "plan.certificate"; });
    };
    EXPECT_EQ(cautions(m_shop->today()), 0) << "it holds on its last day";
    EXPECT_EQ(cautions(m_shop->today().plusDays(1)), 1);
    EXPECT_TRUE(planned().answers.front().served()) << "a caution: who goes is decided by people";
}

TEST_F(DayPlanTest, EveryJobIsServedWithTheFewest) {
    recovers(kMorgan, "ST-ALDER/RTU-3", "32");
    recovers(kMorgan, "ST-ALDER/GYM-1", "8");
    recovers(kJules, "BRIGHTWATER/STORE-2", "15");
    recovers(kJules, "HARBOR/DOCK-1", "5");
    recovers(kJules, "BRIGHTWATER/STORE-2", "10").plan.purpose = Purpose::charge;
    const DayPlan plan = planned();
    EXPECT_TRUE(plan.proved);
    EXPECT_EQ(plan.unserved, 0U);
    EXPECT_EQ(plan.cylinders, 4U);
    EXPECT_EQ(takenFor(plan, "J-1"), "A101 32.0 lb");
    EXPECT_EQ(takenFor(plan, "J-2"), "A101 8.0 lb") << "the same owner's, and 40 of 40.5 lb";
    EXPECT_EQ(takenFor(plan, "J-3"), "A105 15.0 lb") << "on top of what it holds for them";
    EXPECT_EQ(takenFor(plan, "J-4"), "A103 5.0 lb");
    EXPECT_EQ(takenFor(plan, "J-5"), "D001 10.0 lb");
    EXPECT_EQ(plan.people(), (std::vector<std::string>{kJules, kMorgan}));
    EXPECT_EQ(plan.takenBy(kMorgan).size(), 1U);
    EXPECT_EQ(plan.takenBy(kJules).size(), 3U);
}

TEST_F(DayPlanTest, NothingIsSharedByTwoTechniciansOwnersOrRefrigerants) {
    recovers(kMorgan, "ST-ALDER/RTU-3", "10");
    recovers(kJules, "ST-ALDER/RTU-3", "10");      // the same gas, another technician
    recovers(kMorgan, "BRIGHTWATER/STORE-2", "9"); // the same technician, another owner
    recovers(kMorgan, "HARBOR/DOCK-1", "9");       // another refrigerant
    DayJob& burnt = recovers(kMorgan, "ST-ALDER/GYM-1", "10");
    burnt.plan.burnOut = true;
    Use kept;
    kept.burnOut = true;
    expectRecorded(restateUse(*m_shop, "A107", kept, "kept for burn-outs"));
    const DayPlan plan = planned();
    std::map<std::string, std::vector<std::string>> jobs; // by serial
    for (const DayAnswer& answer : plan.answers) {
        for (const DayTaken& taken : answer.taken) {
            jobs[taken.cylinder.serial].push_back(answer.job.job);
        }
    }
    for (const auto& [serial, its] : jobs) {
        EXPECT_EQ(its.size(), 1U) << serial;
    }
    EXPECT_EQ(plan.unserved, 0U);
}

TEST_F(DayPlanTest, TheFullOneIsNotFilledFurtherAndMarginCounts) {
    recovers(kMorgan, "ST-ALDER/RTU-3", "32");
    recovers(kMorgan, "ST-ALDER/GYM-1", "8").plan.margin = lb("1");
    const DayPlan plan = planned();
    EXPECT_EQ(plan.cylinders, 2U) << "41 lb are more than 40.5";
    Mass all;
    for (const DayAnswer& answer : plan.answers) {
        for (const DayTaken& taken : answer.taken) {
            all = Mass::fromMilligrams(all.milligrams() + taken.share.milligrams());
        }
    }
    EXPECT_EQ(shown(all), "41.0 lb");
}

TEST_F(DayPlanTest, EachPushPullStartsNearlyEmpty) {
    recovers(kMorgan, "ST-ALDER/RTU-3", "12").plan.method = Method::pushPull;
    recovers(kMorgan, "ST-ALDER/GYM-1", "11").plan.method = Method::pushPull;
    const DayPlan plan = planned();
    EXPECT_EQ(plan.cylinders, 2U);
    const auto& findings = answerOf(plan, "J-1").findings;
    EXPECT_TRUE(std::any_of(findings.begin(), findings.end(),
                            [](const Finding& one) { return one.rule == "plan.overfill-sensor"; }));
    EXPECT_TRUE(std::any_of(findings.begin(), findings.end(),
                            [](const Finding& one) { return one.rule == "plan.method"; }));
}

TEST_F(DayPlanTest, WhatIsNotServedSaysWhy) {
    recovers(kMorgan, "ST-ALDER/RTU-3", "40");
    recovers(kJules, "ST-ALDER/RTU-3", "40");
    recovers(kJules, "BRIGHTWATER/STORE-2", "40");
    recovers(kJules, "HARBOR/DOCK-1", "500");
    const DayPlan plan = planned();
    EXPECT_TRUE(plan.proved);
    // Of the grocers 40 lb go into A105 and A107 (20.5 + 22.2): all three are served, with four cylinders.
    EXPECT_EQ(takenFor(plan, "J-3"), "A105 20.5 lb, A107 19.5 lb");
    EXPECT_EQ(plan.unserved, 1U);
    EXPECT_EQ(answerOf(plan, "J-4").problem,
              "No cylinders in the shop have lawful room for 500.0 lb of R-22.");
    const auto& next = answerOf(plan, "J-1").next;
    ASSERT_FALSE(next.empty());
    EXPECT_EQ(next.front().serial, answerOf(plan, "J-2").taken.front().cylinder.serial);
    EXPECT_EQ(next.front().rule, "plan.day-taken");
    EXPECT_EQ(next.front().reason, "Goes to JULES ARBOR, job J-2.");
    m_jobs[2].plan.expected = lb("44");
    const DayPlan less = planned();
    EXPECT_EQ(less.unserved, 2U);
    const std::size_t waiting = static_cast<std::size_t>(
        std::count_if(less.answers.begin(), less.answers.end(), [](const DayAnswer& answer) {
            return answer.problem == "The cylinders that could serve it go to other jobs.";
        }));
    EXPECT_EQ(waiting, 1U);
}

TEST_F(DayPlanTest, GasOfABurnOutSaysThatNoCylinderIsKeptForIt) {
    recovers(kJules, "HARBOR/DOCK-1", "5").plan.burnOut = true;
    EXPECT_EQ(answerOf(planned(), "J-1").problem,
              "No cylinder is kept for gas of burn-outs, which goes into no other.");
    Use kept;
    kept.burnOut = true;
    expectRecorded(restateUse(*m_shop, "A107", kept, "marked"));
    EXPECT_TRUE(answerOf(planned(), "J-1").served());
    m_jobs[0].plan.expected = lb("500");
    EXPECT_EQ(answerOf(planned(), "J-1").problem,
              "No cylinders in the shop that are kept for gas of burn-outs have lawful room for 500.0 lb of "
              "R-22.");
}

TEST_F(DayPlanTest, WhatMustNotBeDoneSoTakesNoCylinder) {
    std::vector<Draft> drafts =
        draftsOf(*m_shop, System{"LOFT", "HP-1", "", "R-410A", lb("14"), "Heat-pump, comfort cooling"});
    expectRecorded(m_shop->record(drafts));
    recovers(kMorgan, "LOFT/HP-1", "12").plan.method = Method::pushPull;
    recovers("MORGAN VAIL", "ST-ALDER/RTU-3", "12");
    recovers(kMorgan, "ST-ALDER/RTU-9", "12");
    recovers(kMorgan, "ST-ALDER/RTU-3", "12").plan.machine = "RM-9";
    const DayPlan plan = planned();
    EXPECT_EQ(plan.cylinders, 0U);
    EXPECT_EQ(plan.unserved, 4U);
    EXPECT_EQ(answerOf(plan, "J-1").problem, "No push-pull on LOFT/HP-1: it is a heat pump.");
    EXPECT_NE(answerOf(plan, "J-2").problem.find("did you mean MORGAN VALE"), std::string::npos)
        << answerOf(plan, "J-2").problem;
    EXPECT_NE(answerOf(plan, "J-3").problem.find("there is no system 'ST-ALDER/RTU-9'"), std::string::npos);
    EXPECT_FALSE(answerOf(plan, "J-4").problem.empty());
}

TEST_F(DayPlanTest, WhatCannotBeAskedIsRefused) {
    EXPECT_FALSE(planDay(*m_shop, m_shop->today(), {}));
    recovers(kMorgan, "ST-ALDER/RTU-3", "12");
    EXPECT_FALSE(planDay(*m_shop, m_shop->today().plusDays(-1), m_jobs));
    EXPECT_TRUE(planDay(*m_shop, m_shop->today().plusDays(1), m_jobs));
    m_jobs.resize(kMostDayJobs + 1, m_jobs.front());
    EXPECT_FALSE(planDay(*m_shop, m_shop->today(), m_jobs));
}

TEST_F(DayPlanTest, ARetestThatFallsDueBeforeTheDayCounts) {
    // A102, made 2023-06, A104 and A105, made in 2022, are due five years later (49 CFR 180.209(a)): on that
    // day they take nothing more.
    recovers(kMorgan, "ST-ALDER/RTU-3", "32");
    const auto later = planDay(*m_shop, Date::parse("2028-07-03").value(), m_jobs);
    ASSERT_TRUE(later);
    EXPECT_EQ(later.value().answers.front().stay.at("plan.retest"), 3);
    for (const DayTaken& taken : later.value().answers.front().taken) {
        EXPECT_EQ(taken.cylinder.serial, "A101");
    }
}
