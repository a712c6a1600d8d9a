// A pressure read on a cylinder on file, what a cylinder is marked for, and the limits of the shop's own.
// Saturation pressures: tests/standards/properties; 1.5 % of air AHRI 700; 12 hours at rest from memory.
#include "core/shop/identity.h"

#include <algorithm>

#include "core/shop/plan_rules.h"
#include "tests/shop/week_register.h"
#include "tests/shop/week_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class IdentityTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        ASSERT_TRUE(registerWeek(*m_shop));
        setTime("2026-09-16 08:30"); // they have stood for two days
    }

    [[nodiscard]] CylinderState state(const std::string& serial) {
        return card(*m_shop, serial).value().state;
    }
    [[nodiscard]] static PressureReading reading(double celsius, double absoluteKilopascal) {
        PressureReading read;
        read.temperature = Temperature::fromCelsius(celsius);
        read.pressure = AbsolutePressure::fromKilopascal(absoluteKilopascal).gauge();
        return read;
    }
    [[nodiscard]] IdentityVerdict verdict(const std::string& serial, const PressureReading& read) {
        const auto check = identityOf(*m_shop, state(serial), read);
        EXPECT_TRUE(check) << (check ? "" : check.error().text());
        return check ? check.value().verdict : IdentityVerdict::noLiquid;
    }
    void set(const std::string& key, const std::string& value) {
        Settings settings = m_shop->settings();
        const auto taken = settings.set(key, value);
        ASSERT_TRUE(taken) << taken.error().text();
        expectRecorded(m_shop->change(settings));
    }
    [[nodiscard]] static const Finding* named(const std::vector<Finding>& findings, const std::string& rule) {
        const auto found = std::find_if(findings.begin(), findings.end(),
                                        [&](const Finding& one) { return one.rule == rule; });
        return found == findings.end() ? nullptr : &*found;
    }
    [[nodiscard]] PlanUse planFor(const std::string& serial, const std::string& refrigerant,
                                  bool burnOut = false) {
        PlanAsk ask;
        ask.refrigerant = refrigerant;
        ask.back = m_shop->today();
        ask.burnOut = burnOut;
        return planUse(*m_shop, state(serial), ask);
    }
};

} // namespace

// A103 holds 14.6 lb of R-22 (1043.9 kPa at 25 degC), A105 20 lb of R-410A (1653 kPa).
TEST_F(IdentityTest, AgainstWhatTheBooksSay) {
    EXPECT_EQ(verdict("A103", reading(25, 1043.9)), IdentityVerdict::consistent);
    EXPECT_EQ(verdict("A103", reading(25, 1653)), IdentityVerdict::otherSuspected);
    EXPECT_EQ(verdict("A105", reading(25, 1653)), IdentityVerdict::consistent);
    EXPECT_EQ(verdict("A105", reading(25, 1720)), IdentityVerdict::airSuspected);
    // 14.6 lb in 26.2 lb of water: liquid is left, so too low is below the curve.
    EXPECT_EQ(verdict("A103", reading(25, 900)), IdentityVerdict::belowCurve);
    const auto check = identityOf(*m_shop, state("A103"), reading(25, 1043.9));
    EXPECT_EQ(check.value().finding.subject, "cylinder:A103");
    const auto& working = check.value().finding.working;
    EXPECT_NE(std::find(working.begin(), working.end(), "liquid left: yes, by the books: 14.6 lb in 11.9 l"),
              working.end());
    EXPECT_FALSE(identityOf(*m_shop, state("A101"), reading(25, 1000))) << "empty";
    EXPECT_EQ(identityFinding(*m_shop, state("A101"), reading(25, 1000)).rule, "identity.no-answer");
}

TEST_F(IdentityTest, LittleMassIsVapourOnly) {
    CheckIn facts;
    facts.serial = "A101";
    facts.grossBefore = lb("27.0");
    facts.grossAfter = lb("27.5"); // 0.5 lb in 47.7 lb of water: 10 kg/m3, the vapour could be 44
    facts.from = "system:HARBOR/DOCK-1";
    expectRecorded(checkIn(*m_shop, facts));
    setTime("2026-09-18 08:30");
    EXPECT_EQ(verdict("A101", reading(25, 300)), IdentityVerdict::noLiquid);
}

// Read where it was just filled: too soon; the reading is kept with the entry.
TEST_F(IdentityTest, AtCheckInRightAfterTheWork) {
    CheckIn facts;
    facts.serial = "A102";
    facts.grossBefore = lb("28.1");
    facts.grossAfter = lb("50.0");
    facts.from = "system:ST-ALDER/RTU-3";
    facts.reading = reading(25, 1900);
    ASSERT_NE(named(review(*m_shop, facts).findings, "identity.not-at-rest"), nullptr);
    const Recorded recorded = checkIn(*m_shop, facts);
    expectRecorded(recorded);
    EXPECT_NE(named(recorded.findings, "identity.not-at-rest"), nullptr);
    const auto entry = m_shop->store().entry(recorded.entries.front());
    EXPECT_EQ(entry.value().body.at("gauge_pa").get<std::int64_t>(), 1'798'675);
    EXPECT_EQ(entry.value().body.at("gauge_at_mk").get<std::int64_t>(), 298'150);
    setTime("2026-09-17 08:30");
    CheckIn weighed;
    weighed.serial = "A102";
    weighed.grossAfter = lb("50.0");
    weighed.reading = reading(25, 1653);
    EXPECT_NE(named(checkIn(*m_shop, weighed).findings, "identity.consistent"), nullptr);
}

TEST_F(IdentityTest, SettingsOfTheShopCount) {
    // 4 psi above R-22: beyond 1 psi and 1 degF, within a gauge that may be off by 6.
    const PressureReading read = reading(25, 1043.9 + 4 * kKilopascalPerPsi + 12);
    EXPECT_EQ(verdict("A103", read), IdentityVerdict::airSuspected);
    set("gauge_error", "8 psi");
    EXPECT_EQ(verdict("A103", read), IdentityVerdict::consistent);
    set("gauge_error", "");
    set("air_allowance", "10 %");
    EXPECT_EQ(verdict("A103", read), IdentityVerdict::consistent);
    set("air_allowance", "");
    EXPECT_EQ(verdict("A103", read), IdentityVerdict::airSuspected);
}

// 80 % at 130 degF is stricter than the practice (0.8 x gravity at 77 degF); oil takes its share; law stays.
TEST_F(IdentityTest, LimitsOfTheShopsOwnOnlyLower) {
    const Limits plain = card(*m_shop, "A105").value().limits;
    set("hot_van_limit", "80 % at 130 F");
    const Limits hot = card(*m_shop, "A105").value().limits;
    EXPECT_LT(hot.net, plain.net);
    EXPECT_EQ(hot.governingRule, "fill.shop");
    EXPECT_EQ(hot.lawful, plain.lawful);
    set("hot_van_limit", "");
    EXPECT_EQ(card(*m_shop, "A105").value().limits.net, plain.net);
    set("oil_allowance", "5 %");
    EXPECT_EQ(card(*m_shop, "A105").value().limits.governingRule, "fill.oil");
    EXPECT_LT(card(*m_shop, "A105").value().limits.net, plain.net);
}

TEST_F(IdentityTest, SettingsThatCannotBeSayWhatWouldBe) {
    Settings settings;
    for (const auto& [key, value] :
         {std::pair("hot_van_limit", "80 %"), std::pair("hot_van_limit", "120 % at 50 C"),
          std::pair("hot_van_limit", "80 % at 500 C"), std::pair("oil_allowance", "40 %"),
          std::pair("oil_allowance", "-3 %"), std::pair("air_allowance", "some"),
          std::pair("reclaimer_mixed_above", "2 kg"), std::pair("gauge_error", "2"),
          std::pair("gauge_error", "-2 psi"), std::pair("thermometer_error", "1"),
          std::pair("thermometer_error", "90 F")}) {
        const auto set = settings.set(key, value);
        ASSERT_FALSE(set) << key << " " << value;
        EXPECT_TRUE(set.error().wrong.starts_with(std::string(key) + ": ")) << set.error().text();
        EXPECT_FALSE(set.error().right.empty());
    }
    EXPECT_EQ(settings, Settings());
    for (const auto& [key, value] :
         {std::pair("hot_van_limit", "80 % at 54.4 C"), std::pair("oil_allowance", "3 %"),
          std::pair("air_allowance", "1.5 %"), std::pair("reclaimer_mixed_above", "2 %"),
          std::pair("gauge_error", "10 kPa"), std::pair("thermometer_error", "0.5 K")}) {
        ASSERT_TRUE(settings.set(key, value)) << key;
        const auto pairs = settings.pairs();
        EXPECT_NE(std::find(pairs.begin(), pairs.end(), std::pair<std::string, std::string>(key, value)),
                  pairs.end())
            << key << " is kept as it can be read again";
    }
}

// Common practice: flammable gas only into a rated cylinder, burn-out apart.
TEST_F(IdentityTest, WhatACylinderIsMarkedForCounts) {
    ASSERT_NE(named(planFor("A107", "R-32").findings, "plan.flammable"), nullptr);
    EXPECT_EQ(named(planFor("A107", "R-32").findings, "plan.flammable")->severity, Severity::caution);
    EXPECT_EQ(named(planFor("A107", "R-410A").findings, "plan.flammable"), nullptr);
    expectRecorded(restateUse(*m_shop, "A107", {.flammableRated = false}, "right-hand thread"));
    EXPECT_FALSE(planFor("A107", "R-32").fits());
    expectRecorded(restateUse(*m_shop, "A107", {.flammableRated = true}, "left-hand thread, red band"));
    EXPECT_TRUE(planFor("A107", "R-32").fits());
    EXPECT_EQ(sentenceOf(*m_shop, m_shop->store().entry(state("A107").lastEntry).value()),
              "Restated marks of A107, rated for flammable gas: left-hand thread, red band");
    EXPECT_FALSE(planFor("A107", "R-22", true).fits());
    expectRecorded(restateUse(*m_shop, "A107", {.burnOut = true}, "marked for burn-out"));
    EXPECT_TRUE(planFor("A107", "R-22", true).fits());
    EXPECT_FALSE(planFor("A107", "R-22").fits());
    EXPECT_FALSE(restateUse(*m_shop, "A107", {}, "nothing").ok());
    // What stands in the books already: a finding that may be overruled, with a reason.
    expectRecorded(restateUse(*m_shop, "A102", {.flammableRated = false}, "right-hand thread"));
    CheckIn facts;
    facts.serial = "A102";
    facts.grossBefore = lb("28.1");
    facts.grossAfter = lb("40.0");
    facts.from = "supplier:Estuary Supply";
    facts.refrigerant = "R-32";
    expectRecorded(checkIn(*m_shop, facts));
    const auto findings = card(*m_shop, "A102").value().findings;
    ASSERT_NE(named(findings, "contents.flammable"), nullptr);
    expectRecorded(overrule(*m_shop, "contents.flammable", "cylinder:A102", "maker's letter of today"));
    EXPECT_EQ(named(card(*m_shop, "A102").value().findings, "contents.flammable"), nullptr);
}

TEST_F(IdentityTest, TheReclaimersTermsAreSaidWithAMixture) {
    CheckIn facts;
    facts.serial = "A105";
    facts.grossBefore = lb("47.9");
    facts.grossAfter = lb("48.5"); // 0.6 lb of R-22 on 20 lb of R-410A: 2.9 %
    facts.from = "system:HARBOR/DOCK-1";
    expectRecorded(checkIn(*m_shop, facts));
    set("reclaimer_mixed_above", "5 %");
    const auto findings = card(*m_shop, "A105").value().findings;
    const Finding* mixed = named(findings, "contents.mixed");
    ASSERT_NE(mixed, nullptr);
    EXPECT_TRUE(std::any_of(mixed->working.begin(), mixed->working.end(), [](const std::string& line) {
        return line.find("still taken as one refrigerant") != std::string::npos;
    }));
}
