// The 5 to 50 lb disposal records of 40 CFR 82.156 (EPA-26 to EPA-29 of the reference): each disposed
// appliance by location, day and refrigerant; totals by refrigerant and calendar month, only of full charges
// above 5 and below 50 lb; service recoveries are outside.
#include "core/shop/disposals.h"

#include "core/shop/register_changes.h"
#include "tests/shop/week_shop.h"
#include "tests/support/week_cylinders.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class DisposalsTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        enter("ALDER", "R-410A", "34"); // counts
        enter("BIRCH", "R-410A", "50"); // at the bound: outside
        enter("CEDAR", "R-22", "5.1");  // counts
        enter("ELM", "R-22", "5");      // at the bound: outside
        enter("FIR", "R-22", "");       // nobody can tell
        for (const char* serial : {"A1", "A2", "A3", "A4", "A5", "A6"}) {
            expectRecorded(
                registerCylinder(*m_shop, weekCylinder(serial, "DOT-4BA400", "47.7", "27.0", "2025-03")));
        }
    }

    void enter(const std::string& tag, const std::string& refrigerant, const std::string& pounds) {
        System system;
        system.site = "YARD";
        system.tag = tag;
        system.customer = "St. Alder Schools";
        system.refrigerant = refrigerant;
        if (!pounds.empty()) {
            system.nominalCharge = lb(pounds);
        }
        expectRecorded(m_shop->record(draftsOf(*m_shop, system)));
    }
    Recorded recover(const std::string& serial, const std::string& tag, const std::string& pounds,
                     bool disposal = true) {
        CheckIn facts;
        facts.serial = serial;
        facts.from = "system:YARD/" + tag;
        facts.disposal = disposal;
        const Mass before = card(*m_shop, serial).value().state.content.total();
        facts.grossBefore = Mass::fromMilligrams(lb("27.0").milligrams() + before.milligrams());
        facts.grossAfter = Mass::fromMilligrams(facts.grossBefore->milligrams() + lb(pounds).milligrams());
        return checkIn(*m_shop, facts);
    }
    [[nodiscard]] DisposalMonth month(const char* text) {
        auto found = disposals(*m_shop, MonthYear::parse(text).value());
        EXPECT_TRUE(found);
        return std::move(found).value();
    }
};

} // namespace

TEST_F(DisposalsTest, OnlyDisposalsWithinTheBoundsAreTotalled) {
    setTime("2026-08-31 23:30");
    expectRecorded(recover("A1", "ALDER", "10"));
    setTime("2026-09-01 00:10");
    expectRecorded(recover("A1", "ALDER", "12.5"));
    expectRecorded(recover("A2", "ALDER", "9.5"));
    expectRecorded(recover("A3", "BIRCH", "30"));
    expectRecorded(recover("A4", "CEDAR", "4"));
    expectRecorded(recover("A5", "ELM", "4.5"));
    expectRecorded(recover("A6", "FIR", "3"));
    expectRecorded(recover("A6", "CEDAR", "1", false)); // service
    const DisposalMonth september = month("2026-09");
    ASSERT_EQ(september.appliances.size(), 5U);
    const DisposedAppliance& alder = september.appliances.front();
    EXPECT_EQ(alder.system, "YARD/ALDER");
    EXPECT_EQ(alder.day.text(), "2026-09-01");
    EXPECT_EQ(alder.customer, "St. Alder Schools");
    EXPECT_EQ(shown(alder.recovered), "22.0 lb");
    EXPECT_EQ(alder.entries.size(), 2U);
    ASSERT_EQ(september.totals.size(), 2U);
    EXPECT_EQ(september.totals.at("R-410A"), lb("12.5").plus(lb("9.5")).value()); // each weight as booked
    EXPECT_EQ(september.totals.at("R-22"), lb("4"));
    EXPECT_EQ(month("2026-08").totals.at("R-410A"), lb("10"));
    EXPECT_TRUE(month("2026-07").appliances.empty());
    ASSERT_EQ(september.findings.size(), 3U);
    EXPECT_EQ(september.findings[0].rule, "disposal.location");
    EXPECT_EQ(september.findings[1].rule, "disposal.charge");
    EXPECT_EQ(september.findings[1].subject, "system:YARD/FIR");
    EXPECT_EQ(september.findings[2].rule, "disposal.records");
    EXPECT_EQ(september.findings[2].citation, "40 CFR 82.156");
}

// EPA-26 of the reference (40 CFR 82.156): the location of the appliance. The code of a site is the shop's
// own.
TEST_F(DisposalsTest, TheRecordSaysWhereItWas) {
    expectRecorded(recover("A1", "ALDER", "10"));
    expectRecorded(recover("A2", "ELM", "1")); // outside the bounds: nobody asks
    EXPECT_EQ(month("2026-09").appliances[0].address, "");
    ASSERT_EQ(month("2026-09").findings[0].rule, "disposal.location");
    EXPECT_EQ(month("2026-09").findings[0].subject, "system:YARD/ALDER");
    SystemChange change{"YARD", "ALDER"};
    change.address = "School Lane 12, Port Ansel";
    expectRecorded(m_shop->record(SystemChanges(*m_shop).take(change)));
    const DisposalMonth september = month("2026-09");
    EXPECT_EQ(september.appliances[0].address, "School Lane 12, Port Ansel");
    EXPECT_EQ(september.appliances[0].customer, "St. Alder Schools");
    for (const Finding& finding : september.findings) {
        EXPECT_NE(finding.rule, "disposal.location");
    }
}

TEST_F(DisposalsTest, WhatIsReversedIsGone) {
    const Recorded wrong = recover("A1", "ALDER", "10");
    expectRecorded(wrong);
    EXPECT_EQ(month("2026-09").totals.size(), 1U);
    expectRecorded(m_shop->reverse(wrong.entries.front(), "service, not disposal"));
    EXPECT_TRUE(month("2026-09").totals.empty());
}

TEST_F(DisposalsTest, TransfersNameToWhomAndWhen) {
    expectRecorded(recover("A1", "ALDER", "10"));
    Party party{"reclaimer", "Cape Reclaim", "Foundry Way 2", "R-0417"};
    expectRecorded(m_shop->record({draftOf(*m_shop, party)}));
    const std::string name = nextBatchName(*m_shop);
    expectRecorded(prepareBatch(*m_shop, name, "Cape Reclaim", {"A1"}));
    EXPECT_TRUE(month("2026-09").transfers.empty()) << "prepared, not sent";
    expectRecorded(shipBatch(*m_shop, name, "own van"));
    const auto transfers = month("2026-09").transfers;
    ASSERT_EQ(transfers.size(), 1U);
    EXPECT_EQ(transfers[0].refrigerant, "R-410A");
    EXPECT_EQ(transfers[0].mass, lb("10"));
    EXPECT_EQ(transfers[0].to, "Cape Reclaim");
    EXPECT_EQ(transfers[0].day.text(), "2026-09-14");
}

TEST_F(DisposalsTest, WrongInputAndOtherLaws) {
    CheckIn facts;
    facts.serial = "A1";
    facts.from = "supplier:Harbor Supply";
    facts.refrigerant = "R-22";
    facts.grossAfter = lb("30");
    facts.disposal = true;
    const Recorded refused = checkIn(*m_shop, facts);
    EXPECT_EQ(refused.outcome, Outcome::notRecorded);
    EXPECT_NE(refused.error.right.find("from which system"), std::string::npos);
    Settings settings = m_shop->settings();
    settings.rulebook = "eu";
    expectRecorded(m_shop->change(settings));
    const auto none = disposals(*m_shop, MonthYear::parse("2026-09").value());
    ASSERT_FALSE(none);
    EXPECT_NE(none.error().wrong.find("disposed appliances"), std::string::npos);
}
