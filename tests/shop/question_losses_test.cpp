// How losses develop, each in its own way. Every number below was added up by hand from what is entered.
#include "core/shop/questions.h"

#include "core/shop/counter.h"
#include "core/shop/receipts.h"
#include "core/shop/returns.h"
#include "tests/shop/week_register.h"
#include "tests/shop/week_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class QuestionLossesTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        ASSERT_TRUE(registerWeek(*m_shop));
    }
    void move(EntryKind kind, const char* from, const char* to, const char* pounds) {
        expectRecorded(m_shop->record({m_shop->draft(kind, {{"from", from},
                                                            {"to", to},
                                                            {"mass_mg", lb(pounds).milligrams()},
                                                            {"refrigerant", "R-410A"},
                                                            {"owner", "St. Alder Schools"},
                                                            {"state", "recovered"}})}));
    }
    [[nodiscard]] QuestionAnswer losses() {
        QuestionInput input;
        input.from = Date::firstOf(m_shop->today().month());
        input.to = m_shop->today();
        auto told = answered(*m_shop, *questionNamed("losses"), input);
        EXPECT_TRUE(told) << told.error().text();
        return told ? std::move(told).value() : QuestionAnswer{};
    }
};

} // namespace

TEST_F(QuestionLossesTest, EachWayInAColumnOfItsOwnAndTheEntriesBehindThem) {
    EXPECT_TRUE(losses().table.rows.empty());
    move(EntryKind::recovered, "system:ST-ALDER/RTU-3", "cylinder:A102", "20.0");
    move(EntryKind::recovered, "system:ST-ALDER/RTU-3", "cylinder:A107", "10.0");
    EXPECT_TRUE(losses().table.rows.empty()) << "nothing is lost yet";
    EXPECT_TRUE(losses().entries.empty());

    // The scale shows 1.0 lb less in A102, 28.1 lb empty: 19.0 lb.
    expectRecorded(weigh(*m_shop, "A102", lb("47.1")));
    const Sequence weighed = m_shop->store().headSeq();
    // 0.5 lb go to the air out of A107: 9.5 lb are left.
    move(EntryKind::released, "cylinder:A107", "atmosphere", "0.5");
    const Sequence released = m_shop->store().headSeq();
    // 2.0 lb more than A104 has, which is empty: taken out of nothing.
    move(EntryKind::charged, "cylinder:A104", "system:ST-ALDER/GYM-1", "2.0");
    const Sequence overdrawn = m_shop->store().headSeq();
    // A102 and A107 go to the reclaimer: 19.0 and 9.5 lb; 18.0 and 10.2 arrive, 0.3 lb less together.
    expectRecorded(prepareBatch(*m_shop, "B-1", "Cape Reclaim", {"A102", "A107"}));
    expectRecorded(shipBatch(*m_shop, "B-1", "", {}));
    expectRecorded(receiveBatch(*m_shop, "B-1", {"CR-1"},
                                {{"A102", lb("46.1"), lb("28.1")}, {"A107", lb("27.0"), lb("16.8")}}));
    const Recorded settled = settleBatch(*m_shop, "B-1", {.undecided = true});
    expectRecorded(settled);

    const QuestionAnswer told = losses();
    ASSERT_EQ(told.table.rows.size(), 1U);
    const auto& row = told.table.rows.front();
    const auto kilograms = [](const char* pounds) {
        return fmt::format("{}.{:06}", lb(pounds).milligrams() / 1'000'000,
                           lb(pounds).milligrams() % 1'000'000);
    };
    EXPECT_EQ(row[1], "R-410A");
    EXPECT_EQ(row[2], kilograms("0.5")) << "released";
    EXPECT_EQ(row[4], kilograms("0")) << "evacuated";
    EXPECT_EQ(row[5], kilograms("2.0")) << "overdrawn";
    // To the milligram: shipped is what the books had, 20.0 and 10.0 lb less what was lost; pounds are not
    // whole milligrams, so the last digit is reckoned.
    const std::int64_t shipped =
        lb("20.0").milligrams() + lb("10.0").milligrams() -
        (lb("20.0").milligrams() - (lb("47.1").milligrams() - lb("28.1").milligrams())) -
        lb("0.5").milligrams();
    const std::int64_t received =
        lb("46.1").milligrams() - lb("28.1").milligrams() + lb("27.0").milligrams() - lb("16.8").milligrams();
    EXPECT_EQ(row[6], fmt::format("0.{:06}", shipped - received)) << "settled short";
    EXPECT_EQ(row[3], fmt::format("0.{:06}", lb("20.0").milligrams() -
                                                 (lb("47.1").milligrams() - lb("28.1").milligrams())))
        << "missing by the scale";
    EXPECT_NE(told.sentence.find("0.5 lb released as entered, 1.0 lb missing by the scale"),
              std::string::npos)
        << told.sentence;
    EXPECT_NE(told.sentence.find("reclaimers received 0.3 lb less"), std::string::npos) << told.sentence;
    EXPECT_EQ(told.entries, (std::vector<Sequence>{weighed, released, overdrawn, settled.entries.front()}));
}
