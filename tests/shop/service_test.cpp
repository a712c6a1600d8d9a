// How a cylinder is kept, and what that does to its retest, its filling and its carriage.
#include <algorithm>

#include "tests/shop/week_shop.h"
#include "tests/support/week_cylinders.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class ServiceTest : public ShopTest {
protected:
    void use(const std::string& rulebook) {
        Settings settings = m_shop->settings();
        settings.rulebook = rulebook;
        expectRecorded(m_shop->change(settings));
    }
    [[nodiscard]] static NewCylinder made(const std::string& serial, const std::string& mark,
                                          const std::string& month) {
        return weekCylinder(serial, mark, "47.7", "27.0", month);
    }
    static void hold(NewCylinder& cylinder, const char* mass, const char* refrigerant, GasState state) {
        cylinder.evacuated = false;
        cylinder.content = pounds(mass);
        cylinder.refrigerant = refrigerant;
        cylinder.contentState = state;
    }
    [[nodiscard]] bool tells(const std::string& serial, const std::string& rule) {
        const auto rules = rulesOf(serial);
        return std::find(rules.begin(), rules.end(), rule) != rules.end();
    }
    [[nodiscard]] std::vector<Finding> planned(const std::string& serial, Purpose purpose,
                                               const char* refrigerant) {
        CheckOut plan;
        plan.person = "MORGAN VALE";
        plan.job = "J-1";
        plan.serials = {serial};
        plan.refrigerant = refrigerant;
        plan.purpose = purpose;
        return review(*m_shop, plan).findings;
    }
    [[nodiscard]] static const Finding* named(const std::vector<Finding>& findings, const std::string& rule) {
        const auto found = std::find_if(findings.begin(), findings.end(),
                                        [&](const Finding& one) { return one.rule == rule; });
        return found == findings.end() ? nullptr : &*found;
    }
};

} // namespace

// P200, table 2: ammonia five years, the refrigerants ten (UN-PI-03 of the reference).
TEST_F(ServiceTest, AmmoniaHasTheShorterPeriodInReceptaclesOfAdrAndTheUn) {
    use("eu");
    NewCylinder ammonia = made("E1", "EN 13322-1 PH 33", "2020-03");
    ammonia.plate.refrigerant = "R-717";
    NewCylinder other = made("E2", "EN 13322-1 PH 33", "2020-03");
    other.plate.refrigerant = "R-134a";
    NewCylinder filled = made("E3", "EN 13322-1 PH 33", "2020-03");
    hold(filled, "10", "R-717", GasState::recovered);
    expectRecorded(registerCylinders(*m_shop, {ammonia, other, filled}));
    EXPECT_EQ(card(*m_shop, "E1").value().due, "2025-03");
    EXPECT_EQ(card(*m_shop, "E2").value().due, "2030-03");
    EXPECT_EQ(card(*m_shop, "E3").value().due, "2025-03");
}

// 49 CFR 180.209(e): twelve years for 4BA in clean noncorrosive service, coated outside; one use for recovery
// leaves five (180.209(a)). What is kept clean is what the register says: nothing else shows it.
TEST_F(ServiceTest, CleanServiceHasTheLongerIntervalUntilTheFirstRecovery) {
    NewCylinder plain = made("C1", "DOT-4BA400", "2020-03");
    NewCylinder clean = made("C2", "DOT-4BA400", "2020-03");
    clean.plate.cleanService = true;
    hold(clean, "20", "R-410A", GasState::unused);
    expectRecorded(registerCylinders(*m_shop, {plain, clean}));
    EXPECT_EQ(card(*m_shop, "C1").value().due, "2025-03");
    EXPECT_EQ(card(*m_shop, "C2").value().due, "2032-03");
    EXPECT_TRUE(card(*m_shop, "C2").value().fillAllowed);
    expectRecorded(restateUse(*m_shop, "C1", {.cleanService = true}, "coat seen, new gas only"));
    EXPECT_EQ(card(*m_shop, "C1").value().due, "2032-03");
    NewCylinder recovered = made("C3", "DOT-4BA400", "2020-03");
    recovered.plate.cleanService = true;
    hold(recovered, "20", "R-410A", GasState::recovered);
    expectRecorded(registerCylinders(*m_shop, {recovered}));
    EXPECT_EQ(card(*m_shop, "C3").value().due, "2025-03");
    expectRecorded(restateUse(*m_shop, "C2", {.cleanService = false}, "the coat is gone"));
    EXPECT_EQ(card(*m_shop, "C2").value().due, "2025-03");
}

// US-RQ-03 and -05 of the reference (49 CFR 180.205(c), 173.301(a)(6)): filled before it was due it may be
// offered, filled after it may not: the day of the filling decides, not the day on which the books begin.
TEST_F(ServiceTest, WhatWasInsideWhenTheBooksBeganIsNoFilling) {
    NewCylinder unknown = made("O1", "DOT-4BA400", "2020-03"); // due 2025-03
    hold(unknown, "20", "R-410A", GasState::recovered);
    NewCylinder early = made("O2", "DOT-4BA400", "2020-03");
    hold(early, "20", "R-410A", GasState::recovered);
    early.filled = Date::parse("2025-03-31").value();
    NewCylinder late = made("O3", "DOT-4BA400", "2020-03");
    hold(late, "20", "R-410A", GasState::recovered);
    late.filled = Date::parse("2025-04-01").value();
    expectRecorded(registerCylinders(*m_shop, {unknown, early, late}));
    const auto ships = [&](const char* serial) { return card(*m_shop, serial).value().shipAllowed; };
    EXPECT_TRUE(ships("O1"));
    EXPECT_FALSE(tells("O1", "retest.filled-late"));
    EXPECT_TRUE(ships("O2"));
    EXPECT_FALSE(tells("O2", "retest.filled-late"));
    EXPECT_FALSE(ships("O3"));
    EXPECT_TRUE(tells("O3", "retest.filled-late"));
    for (const char* serial : {"O1", "O2", "O3"}) {
        EXPECT_FALSE(card(*m_shop, serial).value().fillAllowed) << serial;
    }
    // Damaged, it is not moved full, whether the day of its filling is known or not (173.301(a)(2)).
    expectRecorded(inspect(*m_shop, "O1", "damaged", "dented"));
    EXPECT_FALSE(ships("O1"));
}

// 49 CFR 173.301(a)(7), US-RQ-08: after its life it travels only to have what is in it reprocessed or
// disposed of.
TEST_F(ServiceTest, AServiceLifeThatIsOverSendsItToTheReclaimerAndNowhereElse) {
    expectRecorded(m_shop->record({draftOf(*m_shop, weekPeople().front())}));
    NewCylinder old = made("L1", "DOT-4BA400", "2023-03");
    old.plate.serviceUntil = MonthYear::of(2026, 8).value();
    hold(old, "20", "R-410A", GasState::unused);
    expectRecorded(registerCylinders(*m_shop, {old}));
    EXPECT_FALSE(card(*m_shop, "L1").value().fillAllowed);
    const auto findings = planned("L1", Purpose::charge, "R-410A");
    const Finding* carriage = named(findings, "plan.carriage");
    ASSERT_NE(carriage, nullptr);
    EXPECT_EQ(carriage->severity, Severity::refusal);
    EXPECT_TRUE(carriage->citation.starts_with("49 CFR 173.301(a)(7)")) << carriage->citation;
    EXPECT_EQ(carriage->firmness, Firmness::verified);
    EXPECT_FALSE(reviewBatch(*m_shop, "Cape Reclaim", {"L1"}).refused());
}

// A rulebook without a row of it does not let the maker's mark go unheard.
TEST_F(ServiceTest, AServiceLifeThatIsOverBarsFillingInEveryRulebook) {
    NewCylinder old = made("L1", "UN ISO 22991 PH 42", "2023-03");
    old.plate.serviceUntil = MonthYear::of(2026, 8).value();
    expectRecorded(registerCylinders(*m_shop, {old}));
    for (const char* rulebook : {"us", "eu", "uk", "ca", "au"}) {
        use(rulebook);
        EXPECT_FALSE(card(*m_shop, "L1").value().fillAllowed) << rulebook;
        EXPECT_TRUE(tells("L1", "retest.service-life")) << rulebook;
    }
}

// ADR P200 (5)(c): the test pressure against the pressure at 65 degC. 41.8 bar for R-410A by the model of the
// product; the section and its standing are those of the row that refuses.
TEST_F(ServiceTest, APlanIsRefusedWithTheCitationOfItsOwnRulebook) {
    expectRecorded(m_shop->record({draftOf(*m_shop, weekPeople().front())}));
    use("eu");
    expectRecorded(registerCylinders(
        *m_shop, {made("E1", "EN 13322-1 PH 35", "2023-03"), made("D1", "DOT-39", "2026-05")}));
    const auto findings = planned("E1", Purpose::recover, "R-410A");
    const Finding* pressure = named(findings, "plan.pressure");
    ASSERT_NE(pressure, nullptr);
    EXPECT_NE(pressure->headline.find("at 65 °C"), std::string::npos) << pressure->headline;
    EXPECT_EQ(pressure->headline.find("33."), std::string::npos) << pressure->headline;
    EXPECT_EQ(pressure->citation.find("49 CFR"), std::string::npos) << pressure->citation;
    EXPECT_NE(pressure->citation.find("P200"), std::string::npos) << pressure->citation;
    EXPECT_NE(pressure->firmness, Firmness::practice);
    const auto one = planned("D1", Purpose::recover, "R-410A");
    ASSERT_NE(named(one, "plan.one-life"), nullptr);
    EXPECT_EQ(named(one, "plan.one-life")->citation.find("49 CFR"), std::string::npos);
    use("us");
    const auto us = planned("D1", Purpose::recover, "R-410A");
    EXPECT_EQ(named(us, "plan.one-life")->citation, "49 CFR 178.65(i)");
    EXPECT_EQ(named(us, "plan.one-life")->firmness, Firmness::verified);
}
