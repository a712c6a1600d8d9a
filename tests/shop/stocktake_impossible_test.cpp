// A weight that no cylinder can have is the slip of this weighing, not of an old entry. The pound is
// 0.45359237 kg (NIST Handbook 44, Appendix C); liquid R-22 and R-410A weigh at most about one and a half
// times as much as water (handbook tables, from memory), so 47.7 lb of water never hold 75 lb of either.
#include "tests/shop/stocktake_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

// A105 should weigh 47.9 lb; 47.9 kg would be 105.6 lb, 77.7 lb of gas. That it was filled by an entry whose
// gross is 47.9 lb makes no slip of that entry.
TEST_F(StocktakeTest, AWeightThatCannotBeIsReadAgainAndNotRecorded) {
    CheckIn facts;
    facts.serial = "A105";
    facts.grossBefore = lb("40.0");
    facts.grossAfter = lb("47.9");
    facts.from = "system:BRIGHTWATER/STORE-2";
    expectRecorded(checkIn(*m_shop, facts));
    const StocktakeReport report = walk({{"A105", "47.9 kg"}, {"A101", "27.0 lb"}});
    const StockLine& its = line(report, "A105");
    ASSERT_EQ(its.causes.size(), 1U);
    EXPECT_EQ(its.causes[0].cause, DifferenceCause::unitSlip);
    EXPECT_TRUE(holds(its.causes[0].evidence, "this weighing says 105.6 lb")) << its.causes[0].evidence;
    EXPECT_TRUE(holds(its.causes[0].evidence, "does not go into A105")) << its.causes[0].evidence;
    EXPECT_TRUE(holds(its.causes[0].advice, "Read the scale again")) << its.causes[0].advice;
    EXPECT_TRUE(its.causes[0].mend.empty());
    EXPECT_TRUE(report.byContent.empty()) << "what cannot be is no difference of the stock";
    const std::string before = m_shop->store().headDigest();
    const Recorded refused = recordStocktake(*m_shop, report);
    EXPECT_FALSE(refused.ok());
    EXPECT_TRUE(holds(refused.error.wrong, "A105, gross 105.6 lb")) << refused.error.wrong;
    EXPECT_EQ(m_shop->store().headDigest(), before);
    const Recorded rest = recordStocktake(*m_shop, report, {"A105"});
    expectRecorded(rest);
    EXPECT_EQ(rest.entries.size(), 1U);
}

TEST_F(StocktakeTest, AWeightThatNothingExplainsAndThatCannotBeIsNoRecovery) {
    const StocktakeReport report = walk({{"A105", "150 lb"}});
    const StockLine& its = line(report, "A105");
    ASSERT_EQ(its.causes.size(), 1U);
    EXPECT_TRUE(holds(its.causes[0].evidence, "122.1 lb does not go into A105")) << its.causes[0].evidence;
    EXPECT_TRUE(its.causes[0].mend.empty());
    // Overfilled, but it can be: 60 lb in 47.7 lb of water is recorded.
    const StocktakeReport full = walk({{"A105", "82 lb"}});
    EXPECT_EQ(first(full, "A105").cause, DifferenceCause::unrecordedRecovery);
    expectRecorded(recordStocktake(*m_shop, full));
}

// 47.9 lb are 21.73 kg: the scale stood in kilograms. A swap of two numbers fits two figures as well, and
// still is told.
TEST_F(StocktakeTest, AWeighingInTheOtherUnitStandsFirst) {
    const StocktakeReport report = walk({{"A105", "21.73 lb"}});
    const StockCause& cause = first(report, "A105");
    EXPECT_EQ(cause.cause, DifferenceCause::unitSlip);
    EXPECT_TRUE(holds(cause.evidence, "this weighing says 21.7 lb: kilograms that were written as pounds "
                                      "make it 47.9 lb, and the books say 47.9 lb"))
        << cause.evidence;
    EXPECT_TRUE(cause.mend.empty());
}
