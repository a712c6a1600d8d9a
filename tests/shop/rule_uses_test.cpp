// Where the rows of a rulebook apply in a shop: the appliances, records and certificates of 40 CFR 82.152,
// 82.156 and 82.161, the residue of 49 CFR 173.29, what goes with a batch by 49 CFR 172.202.
#include "core/shop/rule_uses.h"

#include <algorithm>
#include <map>

#include "tests/shop/week_shop.h"
#include "tests/support/week_cylinders.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

using Subjects = std::vector<std::string>;

class RuleUsesTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        enter("ALDER", "R-410A", "34");
        enter("BIRCH", "R-134a", "250");
        for (const char* serial : {"A1", "A2"}) {
            expectRecorded(
                registerCylinder(*m_shop, weekCylinder(serial, "DOT-4BA400", "47.7", "27.0", "2025-03")));
        }
        Person technician;
        technician.name = "Robin Ash";
        technician.role = "technician";
        technician.certificate = "Type II";
        expectRecorded(m_shop->record({draftOf(*m_shop, technician)}));
        CheckIn facts;
        facts.serial = "A1";
        facts.from = "system:YARD/ALDER";
        facts.disposal = true;
        facts.grossBefore = lb("27.0");
        facts.grossAfter = lb("37.0");
        expectRecorded(checkIn(*m_shop, facts));
    }

    void enter(const std::string& tag, const std::string& refrigerant, const std::string& pounds) {
        System system;
        system.site = "YARD";
        system.tag = tag;
        system.customer = "St. Alder Schools";
        system.refrigerant = refrigerant;
        system.nominalCharge = lb(pounds);
        expectRecorded(m_shop->record(draftsOf(*m_shop, system)));
    }

    /// Subjects of all rows of a table that have these cells.
    [[nodiscard]] Subjects where(const std::string& table,
                                 const std::map<std::string, std::string>& cells) const {
        const auto uses = RuleUses::gather(*m_shop, m_shop->today());
        EXPECT_TRUE(RuleUses::covers(table)) << table;
        Subjects found;
        int fitting = 0;
        const auto& rows = m_shop->rulebook().table(table)->rows;
        for (std::size_t row = 0; row < rows.size(); ++row) {
            if (std::all_of(cells.begin(), cells.end(),
                            [&](const auto& cell) { return rows[row].cell(cell.first) == cell.second; })) {
                ++fitting;
                const auto& its = uses.value().of(table, row);
                found.insert(found.end(), its.begin(), its.end());
            }
        }
        EXPECT_GT(fitting, 0) << table;
        return found;
    }
};

} // namespace

TEST_F(RuleUsesTest, AppliancesByTheirPressureAndHowFarTheyAreEvacuated) {
    EXPECT_EQ(where("appliance-pressure", {{"appliance", "high"}}), Subjects{"system:YARD/ALDER"});
    EXPECT_EQ(where("appliance-pressure", {{"appliance", "medium"}}), Subjects{"system:YARD/BIRCH"});
    EXPECT_EQ(where("evacuation", {{"appliance", "high"}, {"charge_below_lb", "200"}, {"work", "any"}}),
              Subjects{"system:YARD/ALDER"});
    EXPECT_EQ(where("evacuation", {{"appliance", "medium"}, {"charge_from_lb", "200"}, {"work", "any"}}),
              Subjects{"system:YARD/BIRCH"});
    EXPECT_EQ(where("evacuation", {{"appliance", "low"}}), Subjects{});
}

TEST_F(RuleUsesTest, DisposalsCertificatesAndDuties) {
    EXPECT_EQ(where("disposal-records", {{"per", "appliance"}}), Subjects{"system:YARD/ALDER"});
    EXPECT_EQ(where("technician-types", {{"appliance", "high"}, {"certificate", "type ii / type 2"}}),
              Subjects{"person:Robin Ash"});
    EXPECT_EQ(where("technician-types", {{"certificate", "universal"}, {"appliance", "high"}}), Subjects{});
    EXPECT_EQ(where("duties", {{"subject", "venting"}}), Subjects{"cylinder:A1"});
    EXPECT_EQ(where("duties", {{"subject", "sale"}, {"applies", "ods"}}), Subjects{});
}

TEST_F(RuleUsesTest, WhatTravels) {
    EXPECT_EQ(where("residue", {{"division", "2.2"}}), Subjects{}); // A2 never held anything
    Decant all;
    all.from = "A1";
    all.to = "A2";
    all.mass = lb("10.0");
    expectRecorded(decant(*m_shop, all));
    EXPECT_EQ(where("residue", {{"division", "2.2"}}), Subjects{"cylinder:A1"});
    EXPECT_EQ(where("residue", {{"division", "2.1"}}), Subjects{});
    EXPECT_EQ(where("carriage-duties", {{"subject", "paper"}}), Subjects{});
    Party reclaimer;
    reclaimer.kind = "reclaimer";
    reclaimer.name = "Tidewater Reclaim";
    expectRecorded(m_shop->record({draftOf(*m_shop, reclaimer)}));
    expectRecorded(prepareBatch(*m_shop, "B-1", "Tidewater Reclaim", {"A2"}));
    EXPECT_EQ(where("carriage-duties", {{"subject", "paper"}}), Subjects{"batch:B-1"});
}
