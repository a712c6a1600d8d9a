// What is kept of every cylinder follows what it is judged by: the shop's own limits, the rulebook's rows of
// the day, the program. That a row holds for a part of the time only: 49 CFR 180.209(e) after the rule of 30
// November 2020 (docs/rules-retest.md).
#include <algorithm>

#include "core/shop/judgement.h"
#include "tests/shop/week_shop.h"
#include "tests/support/week_cylinders.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class JudgementTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        expectRecorded(registerCylinders(*m_shop, weekCylinders()));
    }
    void openAgain(bool readOnly = false) {
        m_shop.reset();
        auto opened = Shop::open((m_folder / "shop.tarebook").string(), environment(), readOnly);
        ASSERT_TRUE(opened.shop) << opened.error.text();
        m_shop = std::move(opened.shop);
    }
    /// As a program that judges otherwise would have left it.
    void leaveAsAnother() {
        m_shop->store().setReviewer([](const CylinderState&) {
            CylinderReview review;
            review.findings.push_back({"another.rule", 1, "as another program said", "{}", 0});
            return review;
        });
        ASSERT_TRUE(m_shop->store().reviewAll("another"));
    }
    [[nodiscard]] bool keeps(const std::string& rule) {
        const auto kept = m_shop->store().openFindings();
        return kept && std::any_of(kept.value().begin(), kept.value().end(),
                                   [&](const OpenFinding& finding) { return finding.rule == rule; });
    }
};

} // namespace

TEST_F(JudgementTest, AnotherProgramsFindingsAreFoundAnewOnOpening) {
    const auto before = m_shop->store().openFindings().value();
    const std::string judgement = m_shop->store().judgedBy().value();
    EXPECT_FALSE(judgement.empty());
    leaveAsAnother();
    ASSERT_TRUE(keeps("another.rule"));
    openAgain(true);
    EXPECT_TRUE(keeps("another.rule")) << "who only reads changes nothing";
    openAgain();
    EXPECT_FALSE(keeps("another.rule"));
    EXPECT_EQ(m_shop->store().judgedBy().value(), judgement);
    EXPECT_EQ(m_shop->store().openFindings().value().size(), before.size());
    const std::int64_t version = m_shop->store().dataVersion();
    openAgain();
    EXPECT_EQ(m_shop->store().judgedBy().value(), judgement);
    EXPECT_EQ(m_shop->store().dataVersion(), version) << "and not once more";
}

TEST_F(JudgementTest, AnotherDayJudgesAnewOnlyWhereOtherRowsHold) {
    const std::string today = m_shop->store().judgedBy().value();
    EXPECT_FALSE(m_shop->refresh());
    setTime("2026-09-15 00:01");
    EXPECT_TRUE(m_shop->refresh()) << "another day has begun";
    EXPECT_FALSE(m_shop->refresh());
    EXPECT_EQ(m_shop->store().judgedBy().value(), today) << "the same rows hold";
    leaveAsAnother();
    setTime("2026-09-16 00:01");
    EXPECT_TRUE(m_shop->refresh());
    EXPECT_EQ(m_shop->store().judgedBy().value(), today);
}

TEST_F(JudgementTest, TheDigestOfARulebookIsThatOfTheRowsThatHold) {
    const auto on = [](const char* day) {
        return Rulebook::load(TAREBOOK_RESOURCE_DIR, "us", Date::parse(day).value()).value().digest();
    };
    EXPECT_EQ(on("2026-09-14"), on("2026-09-15"));
    EXPECT_NE(on("2020-11-29"), on("2020-11-30")) << "180.209(e): ten years, then twelve";
    EXPECT_NE(on("2025-12-31"), on("2026-01-01")) << "HFC leak thresholds from 2026 (40 CFR 84.106)";
    EXPECT_NE(Rulebook::load(TAREBOOK_RESOURCE_DIR, "eu", Date::parse("2026-09-14").value()).value().digest(),
              on("2026-09-14"));
}

TEST_F(JudgementTest, OwnLimitsUnitsAndBlendsAreAPartOfIt) {
    std::vector<std::string> seen{m_shop->store().judgedBy().value()};
    const auto changed = [&](const char* key, const char* value) {
        Settings settings = m_shop->settings();
        ASSERT_TRUE(settings.set(key, value)) << key;
        expectRecorded(m_shop->change(settings));
        seen.push_back(m_shop->store().judgedBy().value());
    };
    changed("mass_unit", "kg");
    changed("rulebook", "eu");
    changed("name", "Larkspur Refrigeration"); // judges nothing
    EXPECT_EQ(seen[3], seen[2]);
    EXPECT_NE(seen[0], seen[1]);
    EXPECT_NE(seen[1], seen[2]);
    EXPECT_FALSE(digestOfFolder((m_folder / "none").string()));
}
