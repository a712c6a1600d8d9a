// Cylinders on deposit: entered, reckoned by the days of the shop, ended by what the books say. Amounts are
// invented, the arithmetic in the comments is by hand.
#include "core/shop/deposits.h"

#include "tests/shop/week_register.h"
#include "tests/shop/week_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr const char* kOwner = "Cape Reclaim";

/// A1 and A2 stand in the shop; the day is 14 September 2026.
class DepositsTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        expectRecorded(m_shop->record({draftOf(*m_shop, Party{"reclaimer", kOwner, "Foundry Way 2", ""})}));
        expectRecorded(m_shop->record({draftOf(*m_shop, Party{"supplier", "Nordgas", "", ""})}));
        for (const char* serial : {"A1", "A2"}) {
            expectRecorded(
                registerCylinder(*m_shop, weekCylinder(serial, "DOT-4BA400", "26.2", "17.0", "2024-10")));
        }
    }
    static CylinderLoan loan(const char* serial, const char* since = "2026-09-14") {
        CylinderLoan its{serial, false, Date::parse(since).value()};
        its.currency = "USD";
        its.deposit = 15'000;
        its.rental = 50;
        its.freeDays = 30;
        return its;
    }
    [[nodiscard]] Deposit its(const char* serial, const char* on) {
        return depositOf(*m_shop, serial, Date::parse(on).value()).value().value();
    }
    [[nodiscard]] std::vector<Alert> rentals(const char* on) {
        std::vector<Alert> found;
        const TodayList list = today(*m_shop, Date::parse(on).value()).value();
        for (const Alert& alert : list.alerts) {
            if (alert.finding.rule == "deposit.rental") {
                found.push_back(alert);
            }
        }
        return found;
    }
    static bool refused(const Recorded& recorded) { return recorded.outcome == Outcome::notRecorded; }
};

} // namespace

// 14 September + 30 days is 14 October, free to then. 31 days on the 15th: one at 0.50. On 24 October 40
// days, ten charged: 5.00, and with A2, ours, at 0.80 from the first: 32.00.
TEST_F(DepositsTest, TodayNamesItOnceRentalRunsAndTheCardBeforeToo) {
    expectRecorded(enterDeposit(*m_shop, kOwner, loan("A1")));
    EXPECT_EQ(rulesOf("A1"), std::vector<std::string>{"deposit.out"});
    EXPECT_TRUE(rentals("2026-10-14").empty());
    const auto first = rentals("2026-10-15");
    ASSERT_EQ(first.size(), 1U);
    EXPECT_EQ(first[0].subject, "cylinder:A1");
    EXPECT_EQ(first[0].finding.headline,
              "Belongs to Cape Reclaim since 2026-09-14: rental for 1 of 31 days, 0.50 USD so far.");
    CylinderLoan ours = loan("A2");
    ours.away = true;
    ours.freeDays = 0;
    ours.rental = 80;
    expectRecorded(enterDeposit(*m_shop, "Nordgas", ours));
    const Date on = Date::parse("2026-10-24").value();
    const auto sums = depositSums(deposits(*m_shop, on).value(), on);
    ASSERT_EQ(sums.size(), 2U);
    EXPECT_EQ(sums[0].cost, 500);
    EXPECT_EQ(sums[0].deposit, 15'000);
    EXPECT_TRUE(sums[1].away);
    EXPECT_EQ(sums[1].cost, 3'200);
    setTime("2026-10-24 12:00");
    EXPECT_EQ(rulesOf("A1"), std::vector<std::string>{"deposit.rental"});
    EXPECT_EQ(
        card(*m_shop, "A1").value().history.front().sentence,
        "A1 of reclaimer Cape Reclaim is here since 2026-09-14, deposit 150.00 USD, rental 0.50 USD a day "
        "after 30 days");
    EXPECT_TRUE(m_shop->store().verify().value().problems.empty());
}

TEST_F(DepositsTest, AReturnEndsItAndItsReversalTakesThatBack) {
    expectRecorded(enterDeposit(*m_shop, kOwner, loan("A1")));
    expectRecorded(enterDeposit(*m_shop, kOwner, loan("A2"))); // beside it, of the same party
    setTime("2026-12-01 09:00");
    const Recorded ended = endDeposit(*m_shop, "A1", Date::parse("2026-10-20").value());
    expectRecorded(ended);
    EXPECT_EQ(its("A1", "2026-12-01").loan.cost(m_shop->today()), 6 * 50) << "36 days less 30";
    EXPECT_TRUE(its("A1", "2026-10-19").out(Date::parse("2026-10-19").value()));
    EXPECT_FALSE(its("A1", "2026-12-01").out(m_shop->today()));
    EXPECT_TRUE(rulesOf("A1").empty());
    EXPECT_TRUE(its("A2", "2026-12-01").out(m_shop->today()));
    EXPECT_TRUE(refused(endDeposit(*m_shop, "A1", m_shop->today()))) << "it went back";
    expectRecorded(m_shop->reverse(ended.entries.front(), "another cylinder"));
    EXPECT_TRUE(its("A1", "2026-12-01").out(m_shop->today()));
    EXPECT_TRUE(refused(endDeposit(*m_shop, "A1", Date::parse("2026-09-13").value()))) << "before it came";
    expectRecorded(retire(*m_shop, "A1", "fetched by its owner"));
    EXPECT_EQ(its("A1", "2026-12-02").ended, "it left the fleet");
    EXPECT_TRUE(m_shop->store().verify().value().problems.empty());
}

// 23:30 on 31 October in Chicago is 1 November in Greenwich: the shop's calendar counts, 47 days less 30.
TEST_F(DepositsTest, OursEndsOnTheDayOfTheShopOnWhichItCameBack) {
    CylinderLoan ours = loan("A1");
    ours.away = true;
    expectRecorded(enterDeposit(*m_shop, kOwner, ours));
    setTime("2026-12-01 09:00");
    expectRecorded(
        m_shop->record({m_shop->draft(EntryKind::returned, {{"serial", "A1"}}, at("2026-10-31 23:30"))}));
    const Deposit back = its("A1", "2026-12-01");
    EXPECT_EQ(back.loan.until->text(), "2026-10-31");
    EXPECT_EQ(back.ended, "it came back");
    EXPECT_EQ(back.loan.cost(m_shop->today()), 17 * 50);
    // Out once more, later: the earlier return is not its end.
    ours.since = Date::parse("2026-11-10").value();
    expectRecorded(enterDeposit(*m_shop, "Nordgas", ours));
    EXPECT_TRUE(its("A1", "2026-12-01").out(m_shop->today()));
    EXPECT_EQ(its("A1", "2026-12-01").party, "Nordgas");
}

TEST_F(DepositsTest, WhatCannotBeIsNotEntered) {
    EXPECT_TRUE(refused(enterDeposit(*m_shop, "Nobody", loan("A1"))));
    EXPECT_TRUE(refused(enterDeposit(*m_shop, kOwner, loan("A9"))));
    EXPECT_TRUE(refused(enterDeposit(*m_shop, kOwner, loan("A1", "2026-09-15")))) << "the future";
    CylinderLoan nothing = loan("A1");
    nothing.currency.clear();
    EXPECT_TRUE(refused(enterDeposit(*m_shop, kOwner, nothing)));
    EXPECT_TRUE(refused(endDeposit(*m_shop, "A1", m_shop->today())));
    expectRecorded(enterDeposit(*m_shop, kOwner, loan("A1")));
    EXPECT_TRUE(refused(enterDeposit(*m_shop, "Nordgas", loan("A1")))) << "with another already";
}
