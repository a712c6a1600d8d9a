// What is charged and makes up for no loss. 40 CFR 82.157(b) leaves out of the leak rate the charge of a new
// installation or a retrofit, and a seasonal variance: an equal amount removed earlier in the same cycle
// (EPA-12 of the reference). That a repair counts net of what was taken out for it is common practice.
#include "core/shop/equipment.h"
#include "tests/shop/week_register.h"
#include "tests/shop/week_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class PutBackTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        const System system{"HARBOR", "CHILLER-1", "Ansel Harbor", "R-134a", lb("100"), "comfort cooling"};
        expectRecorded(m_shop->record(draftsOf(*m_shop, system)));
        NewCylinder cylinder = weekCylinder("A201", "DOT-4BA400", "238", "60", "2023-10");
        cylinder.evacuated = false;
        cylinder.content = lb("150");
        cylinder.refrigerant = "R-134a";
        cylinder.contentState = GasState::recovered;
        expectRecorded(registerCylinder(*m_shop, cylinder));
    }
    void recovers(const std::string& when, const char* pounds) {
        moves(when, pounds, "system:HARBOR/CHILLER-1", "");
    }
    void charges(const std::string& when, const char* pounds,
                 ChargePurpose purpose = ChargePurpose::addition) {
        moves(when, pounds, "", "system:HARBOR/CHILLER-1", purpose);
    }
    [[nodiscard]] SystemLeaks found() {
        const auto all = leaks(*m_shop, m_shop->today(), "HARBOR/CHILLER-1");
        EXPECT_TRUE(all) << all.error().text();
        return all.value().front();
    }
    /// Of days, as `2026-03-01 4.0 lb`.
    [[nodiscard]] static std::vector<std::string> told(const std::vector<Addition>& days) {
        std::vector<std::string> lines;
        for (const Addition& one : days) {
            lines.push_back(one.day.text() + " " + shown(one.mass));
        }
        return lines;
    }
    using Lines = std::vector<std::string>;

private:
    void moves(const std::string& when, const char* pounds, const std::string& from, const std::string& to,
               ChargePurpose purpose = ChargePurpose::addition) {
        setTime(when);
        CheckIn facts;
        facts.serial = "A201";
        facts.moved = lb(pounds);
        facts.from = from;
        facts.to = to;
        facts.charge = purpose;
        expectRecorded(checkIn(*m_shop, facts));
    }
};

} // namespace

// Taken out for a repair and put back on the same day: the system lost nothing. The 8 lb of 180 days before
// are the only addition; with another 10 lb 180 days later the rate is that of WE-01 (10 / 100 / (180 /
// 365)).
TEST_F(PutBackTest, ARepairIsNoLeak) {
    charges("2026-01-10 09:00", "8");
    recovers("2026-05-20 09:00", "40");
    charges("2026-05-20 15:00", "40", ChargePurpose::putBack);
    EXPECT_EQ(told(found().additions), (Lines{"2026-01-10 8.0 lb"}));
    EXPECT_EQ(told(found().notCounted), (Lines{"2026-05-20 40.0 lb"}));
    EXPECT_EQ(found().rolling->text(), "8.00 %");
    charges("2026-07-09 09:00", "10"); // 180 days after the first
    EXPECT_EQ(told(found().additions), (Lines{"2026-01-10 8.0 lb", "2026-07-09 10.0 lb"}));
    ASSERT_TRUE(found().annualized);
    EXPECT_EQ(found().annualized->text(), "20.28 %");
}

// The rest was recovered, the leak mended, and the full charge put in: what was lost is the difference,
// whatever the technician called it.
TEST_F(PutBackTest, WhatIsMissingOfItIsAdded) {
    recovers("2026-05-20 09:00", "88");
    charges("2026-05-22 15:00", "60", ChargePurpose::putBack);
    charges("2026-05-22 16:00", "40", ChargePurpose::putBack);
    EXPECT_EQ(told(found().additions), (Lines{"2026-05-22 12.0 lb"}));
    EXPECT_EQ(told(found().notCounted), (Lines{"2026-05-22 88.0 lb"}));
}

// Only what had been taken out before, and less than a year before; an addition that nobody said to be more
// stays one.
TEST_F(PutBackTest, OnlyWhatWasTakenOutBeforeWithinTheYear) {
    charges("2025-03-01 09:00", "5", ChargePurpose::putBack);
    recovers("2025-03-01 15:00", "5");
    charges("2026-03-01 09:00", "5", ChargePurpose::putBack); // 365 days later
    EXPECT_EQ(told(found().additions), (Lines{"2025-03-01 5.0 lb", "2026-03-01 5.0 lb"}));
    EXPECT_TRUE(found().notCounted.empty());
    recovers("2026-03-02 09:00", "5");
    charges("2026-03-03 09:00", "2");
    charges("2027-03-01 09:00", "5", ChargePurpose::putBack); // 364 days later
    EXPECT_EQ(told(found().notCounted), (Lines{"2027-03-01 5.0 lb"}));
    EXPECT_EQ(told(found().additions).back(), "2026-03-03 2.0 lb");
}

TEST_F(PutBackTest, AnInstallationAndARetrofitDoNotCount) {
    charges("2026-05-20 09:00", "100", ChargePurpose::installation);
    EXPECT_FALSE(found().rolling);
    EXPECT_EQ(found().problem, "nothing was added yet that counts as a loss");
    charges("2026-06-20 09:00", "40", ChargePurpose::retrofit);
    charges("2026-07-20 09:00", "3");
    EXPECT_EQ(told(found().additions), (Lines{"2026-07-20 3.0 lb"}));
    EXPECT_EQ(found().rolling->text(), "3.00 %");
}

TEST_F(PutBackTest, OnlyACharge) {
    CheckIn facts;
    facts.serial = "A201";
    facts.moved = lb("5");
    facts.from = "system:HARBOR/CHILLER-1";
    facts.charge = ChargePurpose::putBack;
    EXPECT_EQ(checkIn(*m_shop, facts).outcome, Outcome::notRecorded);
}
