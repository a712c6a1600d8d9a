// Cylinders that go out to charge from: where the scale stands before and after. Pure arithmetic, gross is
// tare and what is inside; the week's A105 weighs 27.9 lb empty and holds 20.0 lb of the grocers' R-410A,
// D001 weighs 6.1 lb and holds 25.0 lb of new R-410A.
#include "core/shop/charge_stop.h"
#include "core/shop/day_checkout.h"
#include "tests/shop/week_register.h"
#include "tests/shop/week_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr const char* kMorgan = "MORGAN VALE";
constexpr const char* kStore = "BRIGHTWATER/STORE-2";

class PlanChargeTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        ASSERT_TRUE(registerWeek(*m_shop));
    }
    Proposal proposed(const char* expected, const char* margin = "0") {
        JobPlan plan;
        plan.purpose = Purpose::charge;
        plan.system = kStore;
        plan.expected = lb(expected);
        plan.margin = lb(margin);
        auto proposal = propose(*m_shop, plan);
        EXPECT_TRUE(proposal) << proposal.error().text();
        return proposal ? std::move(proposal).value() : Proposal{};
    }
    Recorded handOut(std::vector<std::string> serials, const char* expected) {
        CheckOut out;
        out.person = kMorgan;
        out.job = "J-1";
        out.purpose = Purpose::charge;
        out.system = kStore;
        out.serials = std::move(serials);
        out.expected = lb(expected);
        return checkOut(*m_shop, out);
    }
    /// What the hand-outs say, serial by serial.
    std::map<std::string, std::string> stopsOnRecord() {
        std::map<std::string, std::string> stops;
        for (const char* serial : {"A105", "D001"}) {
            const auto entries = m_shop->store().entriesAbout(std::string("cylinder:") + serial);
            EXPECT_TRUE(entries);
            for (const Entry& entry : entries.value()) {
                if (entry.kind == EntryKind::handedOut && entry.body.contains("stop_gross_mg")) {
                    stops[serial] =
                        shown(Mass::fromMilligrams(entry.body["stop_gross_mg"].get<std::int64_t>()));
                }
            }
        }
        return stops;
    }
};

} // namespace

TEST_F(PlanChargeTest, OneCylinderStopsWhenWhatIsExpectedHasGoneOut) {
    const Proposal proposal = proposed("12");
    ASSERT_EQ(proposal.chosen.size(), 1U);
    const Candidate& one = proposal.chosen.front();
    EXPECT_EQ(one.serial, "A105");
    EXPECT_EQ(shown(one.grossNow), "47.9 lb");
    EXPECT_EQ(shown(one.grossToStop), "35.9 lb");
    ASSERT_EQ(proposal.others.size(), 1U);
    EXPECT_EQ(proposal.others.front().serial, "D001");
    EXPECT_EQ(shown(proposal.others.front().grossToStop), "19.1 lb") << "31.1 - 12";
}

TEST_F(PlanChargeTest, TheMarginStaysInside) {
    EXPECT_EQ(shown(proposed("12", "5").chosen.front().grossToStop), "35.9 lb");
}

TEST_F(PlanChargeTest, OfSeveralTheLastGivesTheRest) {
    const Proposal proposal = proposed("32");
    ASSERT_EQ(proposal.chosen.size(), 2U);
    EXPECT_EQ(shown(proposal.chosen[0].grossToStop), "27.9 lb") << "empty";
    EXPECT_EQ(shown(proposal.chosen[1].grossToStop), "19.1 lb") << "31.1 - 12";
    expectRecorded(handOut({"D001", "A105"}, "32")); // in whatever order they are scanned
    EXPECT_EQ(stopsOnRecord(),
              (std::map<std::string, std::string>{{"A105", "27.9 lb"}, {"D001", "19.1 lb"}}));
}

TEST_F(PlanChargeTest, ThePlanOfADaySaysTheSame) {
    DayJob job;
    job.person = kMorgan;
    job.job = "J-1";
    job.plan.purpose = Purpose::charge;
    job.plan.system = kStore;
    job.plan.expected = lb("32");
    job.plan.margin = lb("3");
    const auto plan = planDay(*m_shop, m_shop->today(), {job});
    ASSERT_TRUE(plan) << plan.error().text();
    const auto& taken = plan.value().answers.front().taken;
    ASSERT_EQ(taken.size(), 2U);
    EXPECT_EQ(shown(taken[0].cylinder.grossToStop), "27.9 lb");
    EXPECT_EQ(shown(taken[1].cylinder.grossToStop), "19.1 lb");
    EXPECT_EQ(shown(taken[1].cylinder.grossNow), "31.1 lb");
    expectRecorded(checkOutDay(*m_shop, plan.value(), kMorgan));
    EXPECT_EQ(stopsOnRecord(),
              (std::map<std::string, std::string>{{"A105", "27.9 lb"}, {"D001", "19.1 lb"}}));
}

TEST_F(PlanChargeTest, NothingIsSaidOfWhatIsRecovered) {
    CheckOut out;
    out.person = kMorgan;
    out.system = kStore;
    out.serials = {"A105"};
    out.expected = lb("5");
    expectRecorded(checkOut(*m_shop, out));
    EXPECT_TRUE(stopsOnRecord().empty());
}
