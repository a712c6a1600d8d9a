// A blend of the shop's own: kept in the journal, understood wherever this shop reads a designation.
#include "core/shop/own_blends.h"

#include "core/shop/what_if.h"
#include "tests/shop/week_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class OwnBlendsTest : public ShopTest {};

} // namespace

TEST_F(OwnBlendsTest, IsAnEntryAndIsUnderstoodFromThenOn) {
    ASSERT_FALSE(m_shop->catalogue().designation("Shop blend 7"));
    const Recorded recorded = addOwnBlend(*m_shop, " Shop blend 7 ", "R-290:60+r 600a:40");
    ASSERT_TRUE(recorded.ok()) << recorded.error.text();
    ASSERT_EQ(recorded.entries.size(), 1U);
    const auto entry = m_shop->store().entry(recorded.entries.front());
    ASSERT_TRUE(entry);
    EXPECT_EQ(entry.value().body["key"], "blend:Shop blend 7");
    EXPECT_EQ(entry.value().body["value"], "R-290:60+R-600a:40");
    EXPECT_EQ(sentenceOf(*m_shop, entry.value()),
              "Named a blend of the shop's own: Shop blend 7, R-290:60+R-600a:40 by mass");
    const auto read = m_shop->catalogue().designation("shop BLEND 7");
    ASSERT_TRUE(read) << read.error().text();
    EXPECT_EQ(read.value(), "Shop blend 7");
    // Limits and what-if know it, alone and in a mixture.
    const auto alone = whatIf(*m_shop, "Shop blend 7");
    ASSERT_TRUE(alone) << alone.error().text();
    EXPECT_EQ(alone.value().name, "Shop blend 7");
    EXPECT_FALSE(alone.value().safetyNote.empty()) << "no group is assigned: the most hazardous counts";
    EXPECT_TRUE(whatIf(*m_shop, "R-22", "Shop blend 7", 0.3));
    const auto list = ownBlends(*m_shop);
    ASSERT_EQ(list.size(), 1U);
    EXPECT_EQ(list.front().name, "Shop blend 7");
    EXPECT_EQ(list.front().entry, recorded.entries.front());
}

TEST_F(OwnBlendsTest, StaysWithTheFileAndGoesWithItsReversal) {
    const Recorded recorded = addOwnBlend(*m_shop, "Shop blend 7", "R-290:60+R-600a:40");
    ASSERT_TRUE(recorded.ok()) << recorded.error.text();
    // Another blend made with it keeps the substances, not the name.
    ASSERT_TRUE(addOwnBlend(*m_shop, "Twice made", "Shop blend 7:50+R-170:50").ok());
    const std::string path = m_shop->store().path();
    m_shop.reset();
    auto again = Shop::open(path, environment());
    ASSERT_TRUE(again.shop) << again.error.text();
    m_shop = std::move(again.shop);
    EXPECT_TRUE(m_shop->catalogue().designation("Shop blend 7"));
    ASSERT_TRUE(m_shop->reverse(recorded.entries.front(), "entered by mistake").ok());
    EXPECT_FALSE(m_shop->catalogue().designation("Shop blend 7"));
    EXPECT_TRUE(m_shop->catalogue().designation("Twice made"));
    EXPECT_EQ(ownBlends(*m_shop).size(), 1U);
    EXPECT_TRUE(addOwnBlend(*m_shop, "Shop blend 7", "R-290:70+R-600a:30").ok()) << "the name is free again";
}

TEST_F(OwnBlendsTest, RefusesWithWhatWouldBeRight) {
    ASSERT_TRUE(addOwnBlend(*m_shop, "Shop blend 7", "R-290:60+R-600a:40").ok());
    const auto head = m_shop->store().headSeq();
    for (const auto& [name, parts] :
         {std::pair{"Shop  blend 7", "R-290:50+R-600a:50"}, std::pair{"R-410A", "R-290:50+R-600a:50"},
          std::pair{"R-499", "R-290:50+R-600a:50"}, std::pair{"Half", "R-290:50+R-600a:40"},
          std::pair{"Half", "R-290:50+R-600a"}, std::pair{"Half", "R-290:50+R-9999:50"},
          std::pair{"Half", "R-290:50+R-600a:-50+R-600:100"}, std::pair{"Half", ""},
          std::pair{"", "R-290:50+R-600a:50"}, std::pair{"Half", "R-290:100"},
          std::pair{"Near", "R-32:50.5+R-125:49.5"}, std::pair{"Same", "R-290:60.2+R-600a:39.8"}}) {
        const Recorded refused = addOwnBlend(*m_shop, name, parts);
        EXPECT_FALSE(refused.ok()) << name << " " << parts;
        EXPECT_FALSE(refused.error.wrong.empty()) << name << " " << parts;
        EXPECT_FALSE(refused.error.right.empty()) << name << " " << parts;
    }
    EXPECT_EQ(m_shop->store().headSeq(), head);
}

// Taking back any setting shows at once, not only when the file is opened again.
TEST_F(OwnBlendsTest, AReversedSettingIsReadAgain) {
    Settings settings = m_shop->settings();
    settings.outDays = 7;
    const Recorded changed = m_shop->change(settings);
    ASSERT_TRUE(changed.ok());
    EXPECT_EQ(m_shop->settings().outDays, 7);
    ASSERT_TRUE(m_shop->reverse(changed.entries.front(), "thirty it stays").ok());
    EXPECT_EQ(m_shop->settings().outDays, 30);
}
