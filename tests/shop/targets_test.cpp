// Where contents could go, in a fleet of many. Which cylinder is the right one follows from the order that is
// promised: part-filled with the same of the same owner, then a clean empty, the smallest room that suffices.
#include <algorithm>

#include "core/shop/findings.h"
#include "core/shop/plan_rules.h"
#include "tests/shop/week_shop.h"
#include "tests/support/week_cylinders.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class TargetsTest : public ShopTest {
protected:
    /// Evacuated empties of 26.2 lb of water; the week's A103 is such a one.
    static std::vector<NewCylinder> empties(int count) {
        std::vector<NewCylinder> all;
        for (int number = 0; number < count; ++number) {
            all.push_back(
                weekCylinder(fmt::format("E{:05}", number), "DOT-4BA400", "26.2", "17.0", "2024-10"));
        }
        return all;
    }
    static void fill(NewCylinder& cylinder, const std::string& mass, const char* owner = "") {
        cylinder.evacuated = false;
        cylinder.content = pounds(mass);
        cylinder.refrigerant = "R-22";
        cylinder.contentOwner = owner;
    }
    std::string targetFor(const char* serial, const char* mass) {
        const auto state = m_shop->store().cylinder(serial);
        EXPECT_TRUE(state && state.value());
        return Targets(*m_shop, m_shop->today()).of(*state.value(), pounds(mass));
    }
};

} // namespace

TEST_F(TargetsTest, TakeTheFullestThatStillHasRoomOfHundreds) {
    auto fleet = empties(400);
    for (int number = 1; number < 300; ++number) { // from 1.05 to 20.95 lb inside, no two alike
        fill(fleet[static_cast<std::size_t>(number)],
             fmt::format("{:.3f}", 1.0 + 20.0 * ((number * 83) % 300) / 300.0));
    }
    fill(fleet[0], "24.0");
    expectRecorded(registerCylinders(*m_shop, fleet));
    const auto mass = pounds("3");
    std::string best;
    Mass least = pounds("100");
    for (int number = 1; number < 300; ++number) {
        const Card one = card(*m_shop, fmt::format("E{:05}", number)).value();
        if (one.limits.room >= mass && one.limits.room < least) {
            least = one.limits.room;
            best = one.state.plate.serial;
        }
    }
    ASSERT_FALSE(best.empty());
    EXPECT_EQ(targetFor("E00000", "3"), best);
}

TEST_F(TargetsTest, AnotherOwnersGasIsNoPlaceForIt) {
    auto fleet = empties(250);
    fill(fleet[0], "24.0", "Ansel Harbor Cold Storage");
    for (int number = 1; number < 240; ++number) {
        fill(fleet[static_cast<std::size_t>(number)], "10.0", "Brightwater Grocers");
    }
    expectRecorded(registerCylinders(*m_shop, fleet));
    // The likeliest hundred are all another's; what is promised then is nothing, never a wrong one.
    const std::string target = targetFor("E00000", "3");
    EXPECT_TRUE(target.empty() || target >= "E00240") << target;
    fleet = {weekCylinder("SAME", "DOT-4BA400", "26.2", "17.0", "2024-10")};
    fill(fleet[0], "18.0", "Ansel Harbor Cold Storage"); // less room than the others: the first to be tried
    expectRecorded(registerCylinders(*m_shop, fleet));
    EXPECT_EQ(targetFor("E00000", "3"), "SAME");
}

// The list of a large fleet does not keep a person waiting for targets: the card names them.
TEST_F(TargetsTest, TodayNamesThemUpToFiveThousand) {
    auto fleet = empties(5'000);
    fill(fleet[0], "30.0"); // 1.05 x 26.2 lb is 27.51 lb: 49 CFR 173.304a(a)(2)
    expectRecorded(registerCylinders(*m_shop, fleet));
    const auto remedyNow = [&] {
        const auto list = today(*m_shop, m_shop->today(), 0);
        EXPECT_TRUE(list);
        for (const Alert& alert : list.value().alerts) {
            if (alert.finding.rule == "fill.overfilled") {
                EXPECT_EQ(alert.title, "E00000");
                return alert.finding.remedy;
            }
        }
        return std::string("no alert");
    };
    EXPECT_NE(remedyNow().find("E00001"), std::string::npos) << remedyNow();
    expectRecorded(
        registerCylinder(*m_shop, weekCylinder("ONE-MORE", "DOT-4BA400", "26.2", "17.0", "2024-10")));
    EXPECT_EQ(remedyNow().find("E00001"), std::string::npos) << remedyNow();
    const auto state = m_shop->store().cylinder("E00000");
    const auto named = findingsWithTargets(*m_shop, *state.value(), m_shop->today());
    EXPECT_TRUE(std::any_of(named.begin(), named.end(), [](const Finding& finding) {
        return finding.remedy.find("E00001") != std::string::npos;
    }));
}
