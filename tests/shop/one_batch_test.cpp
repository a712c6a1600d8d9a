// A cylinder stands in one batch at a time: it can leave only once. What ends that it is set aside: its batch
// leaves, is prepared anew without it, or its preparing is reversed.
#include "tests/shop/week_register.h"
#include "tests/shop/week_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr const char* kReclaimer = "Cape Reclaim";

class OneBatchTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        ASSERT_TRUE(registerWeek(*m_shop));
        expectRecorded(m_shop->record({draftOf(*m_shop, Party{"reclaimer", kReclaimer, "", ""})}));
        for (const char* serial : {"A1", "A2", "A3"}) {
            NewCylinder cylinder = weekCylinder(serial, "DOT-4BA400", "26.2", "17.0", "2024-10");
            cylinder.evacuated = false;
            cylinder.content = lb("9.0");
            cylinder.refrigerant = "R-22";
            expectRecorded(registerCylinder(*m_shop, cylinder));
        }
    }
    [[nodiscard]] Recorded prepare(const std::string& name, const std::vector<std::string>& serials) {
        return prepareBatch(*m_shop, name, kReclaimer, serials);
    }
    void expectAside(const Recorded& recorded, const std::string& serial, const std::string& batch) {
        EXPECT_EQ(recorded.outcome, Outcome::notRecorded);
        EXPECT_NE(recorded.error.text().find("Set aside for batch " + batch + ";"), std::string::npos)
            << serial << ": " << recorded.error.text();
    }
};

} // namespace

TEST_F(OneBatchTest, ACylinderStandsInOneBatchAtATime) {
    expectRecorded(prepare("B-1", {"A1", "A2"}));
    expectAside(prepare("B-2", {"A3", "A2"}), "A2", "B-1");
    EXPECT_FALSE(batch(*m_shop, "B-2"));
    expectRecorded(prepare("B-2", {"A3"}));
    expectAside(prepare("B-1", {"A1", "A3"}), "A3", "B-2"); // one that is prepared anew is looked at, too
    expectRecorded(prepare("B-1", {"A2", "A1"}));           // its own are no others
}

TEST_F(OneBatchTest, ABatchThatIsPreparedAnewLetsGoWhatItLeavesOut) {
    expectRecorded(prepare("B-1", {"A1", "A2"}));
    expectRecorded(prepare("B-1", {"A1"}));
    expectRecorded(prepare("B-2", {"A2"}));
    expectAside(prepare("B-3", {"A2"}), "A2", "B-2");
}

TEST_F(OneBatchTest, AReversedOneLetsGoOfAll) {
    expectRecorded(prepare("B-1", {"A1", "A2"}));
    expectRecorded(m_shop->reverse(m_shop->store().headSeq(), "the wrong reclaimer"));
    expectRecorded(prepare("B-2", {"A1", "A2"}));
    // What was prepared before stands again where only the later one is reversed.
    expectRecorded(prepare("B-2", {"A2"}));
    expectRecorded(m_shop->reverse(m_shop->store().headSeq(), "A1 goes along"));
    expectAside(prepare("B-3", {"A1"}), "A1", "B-2");
}

TEST_F(OneBatchTest, OneThatLeftIsNotHere) {
    expectRecorded(prepare("B-1", {"A1"}));
    expectRecorded(shipBatch(*m_shop, "B-1", "own van"));
    const Recorded late = prepare("B-2", {"A1"});
    EXPECT_EQ(late.outcome, Outcome::notRecorded);
    EXPECT_NE(late.error.wrong.find("Not in the shop"), std::string::npos) << late.error.text();
}
