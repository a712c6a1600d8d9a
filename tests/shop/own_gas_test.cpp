// Only the gas that a system is for is leakage, or a share of its full charge: 40 CFR 82.152 and 84.106
// reckon the refrigerant added against the full charge of the appliance. Equipment that was taken out of use
// for good (40 CFR 82.155, recovered for disposal) is charged again only by mistake, or is another: common
// practice.
#include "core/shop/equipment.h"
#include "core/shop/questions.h"
#include "tests/shop/counter_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

// RTU-3 is for R-410A, full charge 34 lb; A103 holds 14.6 lb of R-22.
constexpr const char* kRoof = "system:ST-ALDER/RTU-3";

class OwnGasTest : public CounterLawTest {
protected:
    SystemLeaks roof() { return leaks(*m_shop, m_shop->today(), "ST-ALDER/RTU-3").value().front(); }
    static CheckIn disposal() {
        CheckIn its = facts("A101", "10", kRoof, {});
        its.disposal = true;
        return its;
    }
    std::string outOfUseCell() {
        const auto told =
            answered(*m_shop, *questionNamed("units"), {m_shop->today(), m_shop->today(), ""}).value();
        EXPECT_EQ(told.table.columns.back(), "out_of_use");
        for (const auto& row : told.table.rows) {
            if (row.front() == "ST-ALDER/RTU-3") {
                return row.back();
            }
        }
        return "no such unit";
    }
};

} // namespace

TEST_F(OwnGasTest, AnotherGasIsNoLeakage) {
    const Recorded wrong = movedOut("A103", "2.3", kRoof);
    expectRecorded(wrong);
    EXPECT_NE(named(wrong.findings, "charge.contents"), nullptr);
    EXPECT_EQ(named(wrong.findings, "leak.rate"), nullptr);
    EXPECT_TRUE(roof().additions.empty());
    later();
    expectRecorded(movedOut("A105", "5", kRoof)); // R-410A
    ASSERT_EQ(roof().additions.size(), 1U);
    EXPECT_EQ(roof().additions.front().mass, lb("5"));
}

TEST_F(OwnGasTest, WhatItWasForBeforeARetrofitStillCounts) {
    expectRecorded(movedOut("A103", "2.3", "system:HARBOR/DOCK-1"));
    later();
    System restated = *systemNamed(*m_shop, "HARBOR/DOCK-1");
    restated.refrigerant = "R-410A";
    expectRecorded(m_shop->record(draftsOf(*m_shop, restated)));
    EXPECT_EQ(leaks(*m_shop, m_shop->today(), "HARBOR/DOCK-1").value().front().additions.size(), 1U);
}

TEST_F(OwnGasTest, GasThatNobodyKnowsMayBeItsOwn) {
    expectRecorded(movedIn("A102", "5", "system:HARBOR/DOCK-1", "unknown"));
    later();
    expectRecorded(movedOut("A102", "2", kRoof));
    EXPECT_EQ(roof().additions.size(), 1U);
}

// 25 lb of R-410A are 73.5 % of 34 lb; 5 lb of propane are no part of it.
TEST_F(OwnGasTest, AnotherGasIsNoShareOfTheFullCharge) {
    expectRecorded(movedIn("A101", "25", kRoof));
    expectRecorded(movedIn("A102", "5", kRoof, "R-290"));
    const auto share = chargeShare(*m_shop, *systemNamed(*m_shop, "ST-ALDER/RTU-3"), m_shop->today()).value();
    ASSERT_TRUE(share);
    EXPECT_EQ(share->recovered, lb("25"));
    EXPECT_EQ(share->tenthsOfPercent, 735);
}

TEST_F(OwnGasTest, EquipmentThatIsOutOfUseIsSaidWhereItIsChargedOrPlannedFor) {
    EXPECT_EQ(outOfUseCell(), "");
    EXPECT_EQ(named(review(*m_shop, facts("A105", "1", {}, kRoof)).findings, "charge.out-of-use"), nullptr);
    const Recorded gone = checkIn(*m_shop, disposal());
    expectRecorded(gone);
    EXPECT_EQ(outOfUseCell(), "2026-09-14");
    later();
    const Review before = review(*m_shop, facts("A105", "1", {}, kRoof));
    const Finding* told = named(before.findings, "charge.out-of-use");
    ASSERT_NE(told, nullptr);
    EXPECT_EQ(told->severity, Severity::caution);
    EXPECT_NE(told->headline.find("2026-09-14"), std::string::npos) << told->headline;
    JobPlan plan;
    plan.purpose = Purpose::recover;
    plan.system = "ST-ALDER/RTU-3";
    plan.expected = lb("5");
    EXPECT_NE(named(propose(*m_shop, plan).value().findings, "plan.out-of-use"), nullptr);
    CheckOut out;
    out.person = "MORGAN VALE";
    out.serials = {"A102"};
    out.purpose = Purpose::recover;
    out.system = "ST-ALDER/RTU-3";
    EXPECT_NE(named(review(*m_shop, out).findings, "plan.out-of-use"), nullptr);
    expectRecorded(m_shop->reverse(gone.entries.front(), "it was a repair"));
    EXPECT_EQ(outOfUseCell(), "");
}

TEST_F(OwnGasTest, ANewInstallationUnderTheSameNameEndsIt) {
    expectRecorded(checkIn(*m_shop, disposal()));
    later();
    CheckIn first = facts("A105", "5", {}, kRoof);
    first.charge = ChargePurpose::installation;
    EXPECT_EQ(named(review(*m_shop, first).findings, "charge.out-of-use"), nullptr);
    expectRecorded(checkIn(*m_shop, first));
    later();
    EXPECT_EQ(outOfUseCell(), "");
    EXPECT_EQ(named(review(*m_shop, facts("A105", "1", {}, kRoof)).findings, "charge.out-of-use"), nullptr);
}
