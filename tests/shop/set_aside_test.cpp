// What is set aside for one batch is spoken for: no other batch, no job and no day is offered it. That two
// promises of one cylinder cannot both be kept is common sense of the dock, no law.
#include "core/shop/compose.h"
#include "core/shop/day_plan.h"
#include "tests/shop/week_register.h"
#include "tests/shop/week_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr const char* kReclaimer = "Cape Reclaim";
constexpr const char* kAside = "Set aside for batch B-1.";

class SetAsideTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        ASSERT_TRUE(registerWeek(*m_shop));
        expectRecorded(
            m_shop->record({draftOf(*m_shop, Party{"reclaimer", kReclaimer, "Foundry Way 2", "R-1"})}));
    }
    void prepare(const std::vector<std::string>& serials) {
        expectRecorded(prepareBatch(*m_shop, "B-1", kReclaimer, serials));
    }
    /// Empty: it may go.
    std::string whyNot(const std::string& serial, const std::string& batch = {}) {
        const auto all = returnCandidates(*m_shop, true, batch);
        for (const ReturnCandidate& one : all ? all.value() : std::vector<ReturnCandidate>()) {
            if (one.serial == serial) {
                EXPECT_EQ(one.eligible, one.reason.empty());
                return one.reason;
            }
        }
        return "not among them";
    }
    std::string whyStays(const std::string& serial, const std::string& batch = {}) {
        const auto proposal = composeBatch(*m_shop, {kReclaimer, {}, 0, {}, false, batch});
        EXPECT_TRUE(proposal) << proposal.error().text();
        for (const StaysHere& one : proposal ? proposal.value().stays : std::vector<StaysHere>()) {
            if (one.serial == serial) {
                return one.reason;
            }
        }
        return {};
    }
    /// As the plan of a job names it: `left`, a rule and its reason, or `chosen`.
    std::string inPlan(Purpose purpose, const char* system, const char* mass, const std::string& serial) {
        JobPlan plan;
        plan.purpose = purpose;
        plan.system = system;
        plan.expected = lb(mass);
        const auto proposal = propose(*m_shop, plan);
        EXPECT_TRUE(proposal) << proposal.error().text();
        for (const Candidate& one : proposal.value().chosen) {
            if (one.serial == serial) {
                return "chosen";
            }
        }
        for (const LeftOut& left : proposal.value().leftOut) {
            if (left.serial == serial) {
                return left.rule + ": " + left.reason;
            }
        }
        return "left";
    }
};

} // namespace

TEST_F(SetAsideTest, AnotherBatchIsNotOfferedIt) {
    ASSERT_EQ(whyNot("A103"), "");
    prepare({"A103"});
    EXPECT_EQ(whyNot("A103"), kAside);
    EXPECT_EQ(whyStays("A103"), kAside);
    EXPECT_EQ(whyNot("A105"), "") << "the others are as they were";
    const Review other = reviewBatch(*m_shop, kReclaimer, {"A103"});
    ASSERT_TRUE(other.refused()) << "the window looks before anybody prepares";
    EXPECT_EQ(other.findings.front().rule, "batch.not-eligible");
    EXPECT_EQ(other.findings.front().headline, kAside);
    const Recorded again = prepareBatch(*m_shop, "B-2", kReclaimer, {"A103"});
    ASSERT_FALSE(again.ok());
    EXPECT_EQ(again.findings.front().headline, kAside);
}

TEST_F(SetAsideTest, TheBatchThatIsPreparedAnewSeesItsOwn) {
    prepare({"A103"});
    EXPECT_EQ(whyNot("A103", "B-1"), "");
    EXPECT_EQ(whyStays("A103", "B-1"), "");
    EXPECT_FALSE(returnCandidates(*m_shop, true, "B-9")) << "there is no such batch";
    EXPECT_FALSE(composeBatch(*m_shop, {kReclaimer, {}, 0, {}, false, "B-9"}));
    prepare({"A103", "A105"});
    EXPECT_EQ(whyNot("A105"), kAside);
    // Prepared anew without it, it is free, though an entry once set it aside.
    prepare({"A105"});
    EXPECT_EQ(whyNot("A103"), "");
    EXPECT_EQ(whyStays("A103"), "");
    expectRecorded(prepareBatch(*m_shop, "B-2", kReclaimer, {"A103"}));
    EXPECT_EQ(whyNot("A103"), "Set aside for batch B-2.");
    expectRecorded(m_shop->reverse(m_shop->store().headSeq(), "not yet"));
    EXPECT_EQ(whyNot("A103"), "");
    EXPECT_EQ(whyNot("A105"), kAside);
}

TEST_F(SetAsideTest, NoJobFillsItOrIsChargedFromIt) {
    ASSERT_EQ(inPlan(Purpose::recover, "ST-ALDER/RTU-3", "32", "A102"), "chosen");
    ASSERT_EQ(inPlan(Purpose::charge, "BRIGHTWATER/STORE-2", "10", "A105"), "chosen");
    prepare({"A102", "A105"});
    EXPECT_EQ(inPlan(Purpose::recover, "ST-ALDER/RTU-3", "32", "A102"), std::string("plan.batch: ") + kAside);
    EXPECT_EQ(inPlan(Purpose::charge, "BRIGHTWATER/STORE-2", "10", "A105"),
              std::string("plan.batch: ") + kAside);
    DayJob job;
    job.line = 1;
    job.person = "JULES ARBOR";
    job.plan.purpose = Purpose::charge;
    job.plan.system = "BRIGHTWATER/STORE-2";
    job.plan.expected = lb("10");
    const auto day = planDay(*m_shop, m_shop->today(), {job});
    ASSERT_TRUE(day) << day.error().text();
    EXPECT_EQ(day.value().answers.front().stay.at("plan.batch"), 2);
    for (const Candidate& one : day.value().takenBy("JULES ARBOR")) {
        EXPECT_NE(one.serial, "A105");
    }
    prepare({"A105"});
    EXPECT_EQ(inPlan(Purpose::recover, "ST-ALDER/RTU-3", "32", "A102"), "chosen");
}
