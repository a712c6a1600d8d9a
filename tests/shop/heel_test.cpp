// What is left in a cylinder made for one filling, by the rulebook of the day that is asked about: 40
// CFR 82.154(a) forbids letting it out; 40 CFR 84.116 asks more of HFC from 2028-01-01 (trade summary of the
// final rule).
#include "core/shop/heel.h"

#include "tests/shop/week_shop.h"
#include "tests/support/week_cylinders.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class HeelTest : public ShopTest {};

} // namespace

TEST_F(HeelTest, TheRulebookOfTheDayDecides) {
    NewCylinder emptied = weekCylinder("D1", "DOT-39", "26.2", "6.1", "2026-05");
    emptied.evacuated = false;
    emptied.plate.refrigerant = "R-410A";
    expectRecorded(registerCylinders(*m_shop, {emptied}));
    const CylinderState state = card(*m_shop, "D1").value().state;
    const auto before = heelFinding(*m_shop, state, Date::parse("2027-12-31").value());
    const auto after = heelFinding(*m_shop, state, Date::parse("2028-01-01").value());
    ASSERT_TRUE(before);
    ASSERT_TRUE(after);
    EXPECT_EQ(before->citation.substr(0, 16), "40 CFR 82.154(a)") << before->citation;
    EXPECT_EQ(after->citation.substr(0, 13), "40 CFR 84.116") << after->citation;
    EXPECT_NE(before->row, after->row);
    EXPECT_FALSE(heelFinding(*m_shop, card(*m_shop, "D1").value().state, m_shop->today())->headline.empty());
}
