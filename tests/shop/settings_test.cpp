// What a setting takes. The bound of the weighing tolerance is a judgement: half a per cent of 1000 lb gross.
#include "core/shop/settings.h"

#include "tests/shop/week_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

class SettingsTest : public ShopTest {};

TEST_F(SettingsTest, AWeighingToleranceHidesNoSmallCylinder) {
    Settings settings;
    ASSERT_TRUE(settings.set("weighing_tolerance", "0.5 lb"));
    ASSERT_TRUE(settings.set("weighing_tolerance", "5 lb"));
    EXPECT_EQ(settings.weighingTolerance, lb("5"));
    for (const char* slip : {"5.1 lb", "30 lb", "50 kg", "0.5 t"}) {
        const auto set = settings.set("weighing_tolerance", slip);
        EXPECT_FALSE(set) << slip;
        EXPECT_EQ(settings.weighingTolerance, lb("5")) << "it stays as it was";
    }
    const auto set = settings.set("weighing_tolerance", "50 kg");
    ASSERT_FALSE(set);
    EXPECT_NE(set.error().wrong.find("50 kg would hide what is missing"), std::string::npos);
    EXPECT_NE(set.error().right.find("at most 5 lb"), std::string::npos) << set.error().right;
}

// A shop file of an older program may have more in its journal: it opens, weighs by what is usual, and its
// journal is as it was.
TEST_F(SettingsTest, AnOlderToleranceThatIsTooWideGivesWayToTheUsualOne) {
    expectRecorded(m_shop->record(
        {m_shop->draft(EntryKind::settingSet, {{"key", "weighing_tolerance"}, {"value", "20 kg"}})}));
    EXPECT_EQ(m_shop->settings().weighingTolerance, Settings().weighingTolerance);
    m_shop.reset();
    auto opened = Shop::open((m_folder / "shop.tarebook").string(), environment());
    ASSERT_TRUE(opened.shop) << opened.error.text();
    m_shop = std::move(opened.shop);
    EXPECT_EQ(m_shop->settings().weighingTolerance, Settings().weighingTolerance);
}
