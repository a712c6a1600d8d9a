// A day and a time as people write them, in the zone and the order of the shop. The zone's offsets are those
// of the IANA time zone database.
#include "core/shop/moments.h"

#include "tests/shop/week_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class MomentsTest : public ShopTest {
protected:
    [[nodiscard]] std::string read(const std::string& text) {
        const auto moment = readMoment(*m_shop, text);
        return !moment ? "refused" : moment.value() ? m_shop->zone().localText(*moment.value()) : "nothing";
    }
};

} // namespace

TEST_F(MomentsTest, ReadsTimesOfTheShop) {
    setTime("2026-09-16 10:00");
    EXPECT_EQ(read(""), "nothing");
    EXPECT_EQ(read("  "), "nothing");
    EXPECT_EQ(read("2026-09-14 15:30"), m_shop->zone().localText(at("2026-09-14 15:30")));
    EXPECT_EQ(read("9/14/2026 3:30 PM"), m_shop->zone().localText(at("2026-09-14 15:30")));
    // 15:30 at UTC-5, which is Chicago's offset in September.
    EXPECT_EQ(read("2026-09-14T15:30:00-05:00"), m_shop->zone().localText(at("2026-09-14 15:30")));
    EXPECT_EQ(read("yesterday"), "refused");
    EXPECT_EQ(read("2026-02-30"), "refused");
}

TEST_F(MomentsTest, ADayAloneIsNoonButNeverLaterThanNow) {
    setTime("2026-09-16 10:00");
    EXPECT_EQ(read("2026-09-14"), m_shop->zone().localText(at("2026-09-14 12:00")));
    EXPECT_EQ(read("2026-09-16"), m_shop->zone().localText(at("2026-09-16 10:00")));
    setTime("2026-09-16 17:00");
    EXPECT_EQ(read("2026-09-16"), m_shop->zone().localText(at("2026-09-16 12:00")));
}

TEST_F(MomentsTest, TheOrderFollowsTheRulebook) {
    setTime("2026-09-16 10:00");
    EXPECT_EQ(read("3/4/2026"), m_shop->zone().localText(at("2026-03-04 12:00")));
    Settings settings = m_shop->settings();
    settings.rulebook = "eu";
    expectRecorded(m_shop->change(settings));
    EXPECT_EQ(read("3/4/2026"), m_shop->zone().localText(at("2026-04-03 12:00")));
    EXPECT_EQ(read("14/9/2026 15:30"), m_shop->zone().localText(at("2026-09-14 15:30")));
}
