// The technician's part of a planned day is handed out by the rules of every check-out. Rooms: the week at
// the counter, whose limits the worked examples of tests/rules check: A101 takes 40.5 lb of R-410A.
#include "core/shop/day_checkout.h"

#include "tests/shop/week_register.h"
#include "tests/shop/week_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr const char* kGoes = "MORGAN VALE";

class DayCheckOutTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        ASSERT_TRUE(registerWeek(*m_shop));
        ASSERT_TRUE(testAndEvacuateA101(*m_shop));
    }
    static DayJob recovers(const char* job, const char* system, const char* mass) {
        DayJob its;
        its.person = kGoes;
        its.job = job;
        its.plan.system = system;
        its.plan.expected = lb(mass);
        return its;
    }
    /// 32 and 8 lb of the same owner: 40 of 40.5 lb, in one cylinder.
    DayPlan shared() {
        return planDay(*m_shop, m_shop->today(),
                       {recovers("J-1", "ST-ALDER/RTU-3", "32"), recovers("J-2", "ST-ALDER/GYM-1", "8")})
            .value();
    }
    std::string holderOf(const char* serial) { return card(*m_shop, serial).value().state.holder; }
};

} // namespace

TEST_F(DayCheckOutTest, ACylinderThatTwoJobsShareGoesOutOnce) {
    const DayPlan plan = shared();
    ASSERT_EQ(plan.cylinders, 1U);
    const auto outs = handOutsOf(plan, kGoes);
    ASSERT_EQ(outs.size(), 2U);
    EXPECT_EQ(outs[0].serials, (std::vector<std::string>{"A101"}));
    EXPECT_TRUE(outs[1].serials.empty());
    const Sequence head = m_shop->store().headSeq();
    const Recorded recorded = checkOutDay(*m_shop, plan, kGoes);
    ASSERT_TRUE(recorded.ok()) << recorded.error.text();
    EXPECT_EQ(m_shop->store().headSeq(), head + 3) << "two jobs and a hand-out";
    EXPECT_EQ(holderOf("A101"), kGoes);
    EXPECT_TRUE(m_shop->store().record("job", "J-2").value()) << "the second job is open too";
    // Nothing goes out twice.
    const Recorded again = checkOutDay(*m_shop, plan, kGoes);
    EXPECT_FALSE(again.ok());
    EXPECT_EQ(m_shop->store().headSeq(), head + 3);
}

TEST_F(DayCheckOutTest, JobsThatShareAreMeasuredTogether) {
    const DayPlan plan = shared();
    EXPECT_FALSE(reviewDay(*m_shop, plan, kGoes).refused());
    // 5 lb more inside: each job alone finds its room in 35.5 lb, both do not.
    CheckIn more;
    more.serial = "A101";
    more.moved = lb("5");
    more.from = "system:ST-ALDER/RTU-3";
    more.comesBack = false;
    expectRecorded(checkIn(*m_shop, more));
    const Review reviewed = reviewDay(*m_shop, plan, kGoes);
    ASSERT_TRUE(reviewed.refused());
    EXPECT_EQ(reviewed.findings.front().rule, "plan.room") << reviewed.reason();
    const Sequence head = m_shop->store().headSeq();
    const Recorded recorded = checkOutDay(*m_shop, plan, kGoes);
    EXPECT_FALSE(recorded.ok());
    EXPECT_NE(recorded.error.text().find("40.0 lb expected"), std::string::npos) << recorded.error.text();
    EXPECT_EQ(m_shop->store().headSeq(), head) << "all or nothing";
    EXPECT_EQ(holderOf("A101"), "");
}

TEST_F(DayCheckOutTest, WhatBecameUnlawfulMeanwhileIsRefusedWithItsReason) {
    const DayPlan plan = shared();
    CheckOut taken;
    taken.person = "JULES ARBOR";
    taken.purpose = Purpose::carry;
    taken.serials = {"A101"};
    expectRecorded(checkOut(*m_shop, taken));
    const Recorded recorded = checkOutDay(*m_shop, plan, kGoes);
    EXPECT_FALSE(recorded.ok());
    EXPECT_NE(recorded.error.text().find("JULES ARBOR"), std::string::npos) << recorded.error.text();
    EXPECT_EQ(holderOf("A101"), "JULES ARBOR");
}

TEST_F(DayCheckOutTest, TheOwnerThatTheSheetNamesHolds) {
    // Without a system nobody else says whose gas it is: A105 holds 20 lb of theirs.
    DayJob job = recovers("J-1", "", "15");
    job.plan.refrigerant = "R-410A";
    job.plan.owner = "Brightwater Grocers";
    const DayPlan plan = planDay(*m_shop, m_shop->today(), {job}).value();
    ASSERT_EQ(plan.takenBy(kGoes).size(), 1U);
    EXPECT_EQ(plan.takenBy(kGoes)[0].serial, "A105");
    const Recorded recorded = checkOutDay(*m_shop, plan, kGoes);
    EXPECT_TRUE(recorded.ok()) << recorded.error.text();
    EXPECT_EQ(holderOf("A105"), kGoes);
}

TEST_F(DayCheckOutTest, WhoHasNothingInThePlanIsTold) {
    const Review reviewed = reviewDay(*m_shop, shared(), "JULES ARBOR");
    ASSERT_TRUE(reviewed.refused());
    EXPECT_EQ(reviewed.findings.front().rule, "plan.person");
    EXPECT_FALSE(checkOutDay(*m_shop, shared(), "JULES ARBOR").ok());
}
