// What befalls a cylinder overrides the date of its test: 49 CFR 180.205(d), (e), (h), (i), 180.209(c), as
// tests/rules/retest_test.cpp has the rules; here from the entry to the finding.
#include <algorithm>

#include "tests/shop/week_shop.h"
#include "tests/support/week_cylinders.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class HarmTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        expectRecorded(registerCylinders(*m_shop, weekCylinders()));
    }
    [[nodiscard]] bool tells(const std::string& serial, const std::string& rule) {
        const auto rules = rulesOf(serial);
        return std::find(rules.begin(), rules.end(), rule) != rules.end();
    }
};

} // namespace

TEST_F(HarmTest, EachIsAFindingOfItsOwnRuleAndBarsFilling) {
    const std::vector<std::pair<const char*, const char*>> each = {
        {"damaged", "retest.damage"},    {"leaking", "retest.leak"},
        {"overheated", "retest.heat"},   {"over-pressurised", "retest.over-pressurised"},
        {"ground", "retest.wall-metal"}, {"corrosive", "retest.class-8"},
        {"ordered", "retest.ordered"},   {"rejected", "retest.rejected"},
    };
    ASSERT_EQ(each.size(), everyHarm().size());
    for (const auto& [word, rule] : each) {
        ASSERT_FALSE(tells("A102", rule)) << rule;
        const Recorded recorded = inspect(*m_shop, "A102", word, "seen at the dock");
        expectRecorded(recorded);
        EXPECT_TRUE(tells("A102", rule)) << word;
        EXPECT_EQ(card(*m_shop, "A102").value().state.condition, Condition::held) << word;
        CheckOut plan;
        plan.person = "MORGAN VALE";
        plan.job = "J-1";
        plan.serials = {"A102"};
        plan.refrigerant = "R-22";
        EXPECT_FALSE(checkOut(*m_shop, plan).ok()) << word;
        expectRecorded(m_shop->reverse(recorded.entries.front(), "another cylinder was meant"));
        EXPECT_FALSE(tells("A102", rule)) << word;
    }
    const Recorded wrong = inspect(*m_shop, "A102", "burnt", "");
    EXPECT_FALSE(wrong.ok());
    EXPECT_NE(wrong.error.right.find("overheated"), std::string::npos) << wrong.error.text();
}

// 180.205(i)(1): a leak through the wall condemns (US-RQ-41). Only a leak at a fitting can be taken back by a
// second look, and whoever looks says so.
TEST_F(HarmTest, ALeakIsTakenBackOnlyWhereItWasAtAFitting) {
    expectRecorded(inspect(*m_shop, "A102", "leaking", "bubbles"));
    const Recorded silent = inspect(*m_shop, "A102", "sound", "looks good");
    EXPECT_FALSE(silent.ok());
    EXPECT_NE(silent.error.text().find("fitting"), std::string::npos) << silent.error.text();
    EXPECT_TRUE(tells("A102", "retest.leak"));
    const Recorded mended = inspect(*m_shop, "A102", "sound", "new valve stem", true);
    expectRecorded(mended);
    EXPECT_FALSE(tells("A102", "retest.leak"));
    const Entry entry = m_shop->store().entry(mended.entries.front()).value();
    EXPECT_EQ(sentenceOf(*m_shop, entry), "Inspected A102: sound, its leak was at a fitting, new valve stem");
    expectRecorded(inspect(*m_shop, "A102", "damaged", "a dent"));
    const Recorded second = inspect(*m_shop, "A102", "sound", "only paint", true);
    expectRecorded(second);
    EXPECT_FALSE(m_shop->store().entry(second.entries.front()).value().body.contains("leak_at"))
        << "nothing leaked";
    // A passed test takes it back whoever looks.
    expectRecorded(inspect(*m_shop, "A103", "leaking", "bubbles"));
    expectRecorded(recordTest(
        *m_shop, {"A103", MonthYear::of(2026, 9).value(), "volumetric", "B123", {}, {}, true, {}}));
    EXPECT_FALSE(tells("A103", "retest.leak"));
}

TEST_F(HarmTest, APassedTestMendsSteelAfterAFireButNotOverPressure) {
    TestResult passed{"A102", MonthYear::of(2026, 9).value(), "volumetric", "B123", {}, {}, true, {}};
    expectRecorded(inspect(*m_shop, "A102", "overheated", "a shed burnt"));
    expectRecorded(recordTest(*m_shop, passed));
    EXPECT_FALSE(tells("A102", "retest.heat"));
    expectRecorded(inspect(*m_shop, "A102", "over-pressurised", "relief device blew"));
    expectRecorded(recordTest(*m_shop, passed));
    EXPECT_TRUE(tells("A102", "retest.over-pressurised")) << "180.205(i)(1)";
}

// 180.209(c): 28.1 lb marked; a loss of 5 % is 1.405 lb: 26.7 lb is none yet, 26.6 lb is.
TEST_F(HarmTest, ATwentiethOfTheTareLost) {
    expectRecorded(restateTare(*m_shop, "A102", lb("26.7"), "weighed evacuated", true));
    EXPECT_FALSE(tells("A102", "retest.tare-loss"));
    expectRecorded(restateTare(*m_shop, "A102", lb("26.6"), "weighed evacuated", true));
    EXPECT_TRUE(tells("A102", "retest.tare-loss")) << "against the mark, not the weighing before";
    expectRecorded(restateTare(*m_shop, "A102", lb("26.6"), "the collar was misread"));
    EXPECT_FALSE(tells("A102", "retest.tare-loss")) << "no metal is gone where the mark was misread";
    EXPECT_FALSE(restateTare(*m_shop, "A105", lb("25.0"), "weighed", true).ok()) << "it holds 20 lb";
}

// 173.301(a)(7), from the register to the finding; what is in it may still go to a reclaimer.
TEST_F(HarmTest, TheEndOfAServiceLifeOnFile) {
    NewCylinder cylinder = weekCylinder("L1", "DOT-4BA400", "47.7", "27.0", "2025-03");
    cylinder.plate.serviceUntil = MonthYear::of(2026, 9).value();
    cylinder.evacuated = false;
    cylinder.content = lb("5");
    cylinder.refrigerant = "R-22";
    expectRecorded(registerCylinder(*m_shop, cylinder));
    EXPECT_FALSE(tells("L1", "retest.service-life"));
    setTime("2026-10-01 08:00");
    EXPECT_TRUE(m_shop->refresh());
    EXPECT_TRUE(tells("L1", "retest.service-life"));
    const auto candidates = returnCandidates(*m_shop);
    ASSERT_TRUE(candidates);
    for (const ReturnCandidate& candidate : candidates.value()) {
        EXPECT_TRUE(candidate.serial != "L1" || candidate.eligible) << candidate.reason;
    }
}

TEST_F(HarmTest, AServiceLifeIsReadOffTheCollarLater) {
    expectRecorded(
        restateUse(*m_shop, "A102", {.serviceUntil = MonthYear::of(2026, 8).value()}, "seen at the test"));
    EXPECT_TRUE(tells("A102", "retest.service-life"));
    expectRecorded(restateUse(*m_shop, "A102", {.serviceUntil = MonthYear::of(2036, 8).value()}, "misread"));
    EXPECT_FALSE(tells("A102", "retest.service-life"));
    EXPECT_FALSE(
        restateUse(*m_shop, "A102", {.serviceUntil = MonthYear::of(1999, 8).value()}, "misread").ok());
}

// The file keeps it: another opening of the same shop tells the same.
TEST_F(HarmTest, OutlivesTheProgram) {
    expectRecorded(inspect(*m_shop, "A103", "overheated", "a shed burnt"));
    expectRecorded(restateTare(*m_shop, "A102", lb("26.0"), "weighed evacuated", true));
    const CylinderState before = m_shop->store().cylinder("A102").value().value();
    m_shop.reset();
    auto opened = Shop::open((m_folder / "shop.tarebook").string(), environment());
    ASSERT_TRUE(opened.shop) << opened.error.text();
    m_shop = std::move(opened.shop);
    EXPECT_TRUE(tells("A103", "retest.heat"));
    EXPECT_TRUE(tells("A102", "retest.tare-loss"));
    EXPECT_EQ(m_shop->store().cylinder("A102").value().value().markedTare, before.markedTare);
    EXPECT_TRUE(m_shop->store().verify().value().problems.empty());
}
