// The list of cylinders as a day shows it: what the day brings is found in it.
#include <algorithm>

#include "core/shop/exchanged.h"
#include "core/shop/findings.h"
#include "core/shop/fleet.h"
#include "tests/shop/week_register.h"
#include "tests/shop/week_shop.h"
#include "tests/support/week_cylinders.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class FleetTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        ASSERT_TRUE(registerPeople(*m_shop));
        expectRecorded(registerCylinders(*m_shop, weekCylinders()));
    }
    /// Serials of the rows that have the words on a day.
    [[nodiscard]] std::vector<std::string> found(const std::string& words, const std::string& day) {
        std::vector<std::string> serials;
        const auto rows = fleetOn(*m_shop, words, "", Date::parse(day).value());
        for (const FleetRow& row : rows ? rows.value() : std::vector<FleetRow>()) {
            serials.push_back(row.serial);
        }
        return serials;
    }
    [[nodiscard]] FleetRow row(const std::string& serial, const std::string& day) {
        const auto rows = fleetOn(*m_shop, serial, "", Date::parse(day).value());
        return rows && !rows.value().empty() ? rows.value().front() : FleetRow();
    }
};

using Serials = std::vector<std::string>;

} // namespace

// A101 made 2021-03: due 2026-03, to be filled through its last day (49 CFR 180.205, .209).
TEST_F(FleetTest, FindsWhoseRetestHasPassedOrIsNear) {
    EXPECT_EQ(found("retest passed", "2026-03-31"), Serials());
    EXPECT_EQ(found("retest due", "2026-03-31"), Serials{"A101"});
    EXPECT_EQ(found("retest passed", "2026-04-01"), Serials{"A101"});
    EXPECT_EQ(row("A101", "2026-04-01").severity, static_cast<int>(Severity::refusal) + 1);
    EXPECT_EQ(row("A101", "2026-04-01").finding, "Retest passed: was due 2026-03");
    EXPECT_EQ(found("due:2026-03", "2026-04-01"), Serials{"A101"});
    // A104 is due 2027-05; ninety days before its first day is 2027-01-31.
    EXPECT_EQ(found("a104 retest due", "2027-01-30"), Serials());
    EXPECT_EQ(found("a104 retest due", "2027-01-31"), Serials{"A104"});
}

TEST_F(FleetTest, SaysTheGraverFirstAndKeepsTheOther) {
    expectRecorded(weigh(*m_shop, "A105", lb("46.4"))); // 1.5 lb less than the books say; due 2027-10
    EXPECT_EQ(row("A105", "2026-09-14").severity, static_cast<int>(Severity::caution) + 1);
    const FleetRow both = row("A105", "2027-12-01");
    EXPECT_TRUE(both.finding.starts_with("Retest passed: was due 2027-10; The scale showed 1.5 lb less"))
        << both.finding;
    EXPECT_EQ(both.severity, static_cast<int>(Severity::refusal) + 1);
    EXPECT_EQ(found("scale showed", "2027-12-01"), Serials{"A105"});
}

TEST_F(FleetTest, FindsWhatIsOutTooLong) {
    CheckOut out{"MORGAN VALE", "J-1", {"A102"}, Purpose::carry, "", "", {}, {}};
    expectRecorded(checkOut(*m_shop, out)); // on 2026-09-14; thirty days are allowed
    EXPECT_EQ(found("out too long", "2026-10-14"), Serials());
    EXPECT_EQ(found("out too long", "2026-10-15"), Serials{"A102"});
    EXPECT_EQ(row("A102", "2026-10-15").finding, "Out too long: since 2026-09-14");
}

// The list and Today tell of the same cylinders, whatever the day.
TEST_F(FleetTest, AgreesWithTheFindingsOfTheDay) {
    for (const char* day :
         {"2026-03-31", "2026-04-01", "2026-09-14", "2027-03-01", "2027-06-01", "2030-01-01"}) {
        const Date on = Date::parse(day).value();
        const auto rows = fleetOn(*m_shop, "", "", on);
        ASSERT_TRUE(rows) << rows.error().text();
        for (const FleetRow& row : rows.value()) {
            const auto state = card(*m_shop, row.serial).value().state;
            std::string rule;
            for (const Finding& finding : dayFindings(*m_shop, state, on)) {
                rule = finding.rule;
            }
            const std::string expected = rule == "retest.overdue"    ? "Retest passed"
                                         : rule == "retest.due-soon" ? "Retest due"
                                                                     : "";
            EXPECT_TRUE(row.finding.starts_with(expected)) << row.serial << day << row.finding;
            EXPECT_EQ(expected.empty(), row.finding.empty()) << row.serial << day << row.finding;
        }
    }
}

// UN receptacles are not filled in the month in which they fall due (P200 by 49 CFR 180.207, from memory).
TEST_F(FleetTest, TheDueMonthOfAUnReceptacleIsTooLate) {
    NewCylinder cylinder = weekCylinder("U001", "DOT-4BA400", "47.7", "27.0", "2024-03");
    cylinder.plate.specification = Specification::parse("UN ISO 22991 PH 42").value();
    expectRecorded(registerCylinder(*m_shop, cylinder));
    EXPECT_EQ(found("u001 retest passed", "2034-02-28"), Serials());
    EXPECT_EQ(found("u001 retest passed", "2034-03-01"), Serials{"U001"});
    // What needs doing says the same.
    const auto severityOn = [&](const char* day) {
        const auto list = today(*m_shop, Date::parse(day).value(), 0);
        for (const Alert& alert : list.value().alerts) {
            if (alert.title == "U001" && alert.finding.rule.starts_with("retest.")) {
                return alert.finding.severity;
            }
        }
        return Severity::note;
    };
    EXPECT_EQ(severityOn("2034-02-28"), Severity::caution);
    EXPECT_EQ(severityOn("2034-03-01"), Severity::refusal);
}

TEST_F(FleetTest, WhatIsTooMuchIsTheSameFigureEverywhereAndNeverTooSmall) {
    Settings settings;
    const auto pounds = [](const std::string& text) { return Mass::parse(text + " lb").value(); };
    const auto below = [&](const std::string& text) {
        return Mass::fromMilligrams(-pounds(text).milligrams());
    };
    EXPECT_EQ(Display(settings).limit(below("5.43")), "-5.5 lb");
    EXPECT_EQ(excessText(Display(settings), below("5.43")), "5.5 lb");
    EXPECT_EQ(Display(settings).limit(pounds("5.43")), "5.4 lb");
    EXPECT_EQ(excessText(Display(settings), pounds("5.43")), "0.0 lb");
    settings.mass = MassUnit::kilogram;
    EXPECT_EQ(Display(settings).limit(Mass::fromMilligrams(-2'463'010)), "-2.47 kg");
    EXPECT_EQ(Display(settings).limit(Mass::fromMilligrams(-2'460'000)), "-2.46 kg");
    EXPECT_EQ(Display(settings).limit(Mass::fromMilligrams(2'469'999)), "2.47 kg"); // half a milligram
    EXPECT_EQ(Display(settings).limit(Mass::fromMilligrams(2'469'990)), "2.46 kg");
    EXPECT_EQ(excessText(Display(settings), Mass::fromMilligrams(-2'463'010)), "2.47 kg");
}

TEST_F(FleetTest, EmptiesThatCameInExchangeAreReadOffTheirCollars) {
    const Exchanged good{"A105", "A201", "DOT-4BA400", "26.2 lb", "16.9 lb", "2025-01", ""};
    const auto drafts = draftsOf(*m_shop, {good});
    ASSERT_TRUE(drafts) << drafts.error().text();
    EXPECT_EQ(drafts.value().size(), 1U);
    const auto wrong = [&](Exchanged came, const std::string& part) {
        const auto refused = draftsOf(*m_shop, {came});
        ASSERT_FALSE(refused);
        EXPECT_NE(refused.error().text().find(came.serial + ", which came for A105: "), std::string::npos);
        EXPECT_NE(refused.error().text().find(part), std::string::npos) << refused.error().text();
    };
    wrong({"A105", "A201", "DOT-4BX400", "26.2 lb", "16.9 lb", "2025-01", ""}, "specification: ");
    wrong({"A105", "A201", "DOT-4BA400", "", "16.9 lb", "2025-01", ""}, "water capacity: ");
    wrong({"A105", "A201", "DOT-4BA400", "26.2 lb", "heavy", "2025-01", ""}, "tare: ");
    wrong({"A105", "A201", "DOT-4BA400", "26.2 lb", "16.9 lb", "2025-13", ""}, "made: ");
    wrong({"A105", "A201", "DOT-4BA400", "26.2 lb", "16.9 lb", "2025-01", "x"}, "last test: ");
    wrong({"A105", "A101", "DOT-4BA400", "26.2 lb", "16.9 lb", "2025-01", ""}, "registered already");
    EXPECT_FALSE(draftsOf(*m_shop, {good, good})) << "one serial twice";
}

// What is kept of every cylinder follows the settings that judge it: its limit, and what is said of it.
TEST_F(FleetTest, ALimitOfTheShopsOwnReachesTheList) {
    const auto limitOf = [&] { return row("A103", "2026-09-14").limitMg; };
    const auto before = limitOf();
    EXPECT_EQ(before, card(*m_shop, "A103").value().limits.net.milligrams());
    Settings settings = m_shop->settings();
    ASSERT_TRUE(settings.set("hot_van_limit", "40 % at 130 F"));
    expectRecorded(m_shop->change(settings));
    EXPECT_LT(limitOf(), before);
    EXPECT_EQ(limitOf(), card(*m_shop, "A103").value().limits.net.milligrams());
    EXPECT_TRUE(row("A103", "2026-09-14").finding.find("lb") != std::string::npos) << "14.6 lb are above it";
    ASSERT_TRUE(settings.set("mass_unit", "kg"));
    expectRecorded(m_shop->change(settings));
    EXPECT_EQ(row("A103", "2026-09-14").finding, card(*m_shop, "A103").value().findings.front().headline);
    ASSERT_TRUE(settings.set("hot_van_limit", ""));
    expectRecorded(m_shop->change(settings));
    EXPECT_EQ(limitOf(), before);
    EXPECT_TRUE(row("A103", "2026-09-14").finding.empty());
}
