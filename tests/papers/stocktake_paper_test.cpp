// The report of a walk along the racks, as it is printed.
#include "core/papers/stocktake_paper.h"

#include "tests/shop/week_shop.h"
#include "tests/support/week_cylinders.h"

using namespace tarebook;
using namespace tarebook::tests;

using StocktakePaperTest = ShopTest;

// A103 17.0 + 14.6 lb and A105 27.9 + 20.0 lb by the books; A105 is 2.0 lb too light.
TEST_F(StocktakePaperTest, SaysWhatVariesWhyAndWhatWasNotSeen) {
    expectRecorded(registerCylinders(*m_shop, weekCylinders()));
    StocktakeAsk ask;
    ask.weighings = {{"A103", lb("31.6")}, {"A105", lb("45.9")}, {"A199", lb("30.0")}};
    const StocktakePaper paper = paperOf(*m_shop, stocktake(*m_shop, ask).value());
    EXPECT_EQ(paper.shop, "Larkspur Mechanical");
    EXPECT_EQ(paper.walked, "2026-09-14 08:30");
    ASSERT_EQ(paper.weighings.rows.size(), 2U);
    EXPECT_EQ(paper.weighings.rows[1], (std::vector<std::string>{"A105", "R-410A", "45.9 lb", "47.9 lb",
                                                                 "-2.0 lb", "0.3 lb", "varies"}));
    ASSERT_EQ(paper.causes.rows.size(), 1U);
    EXPECT_EQ(paper.causes.rows[0][2], "release");
    ASSERT_EQ(paper.absences.rows.size(), 6U); // A199 and the five that were not seen
    EXPECT_EQ(paper.absences.rows[0][0], "A199");
    EXPECT_EQ(paper.absences.rows[1][1], "not seen");
    EXPECT_EQ(paper.summary[0],
              "3 weighed: 1 agree with the books, 1 vary, 0 with a tare in doubt. 5 not seen, 0 "
              "not expected, 1 unknown.");
    EXPECT_EQ(paper.summary[1], "Differences of R-410A together: -2.0 lb");
    ASSERT_EQ(paper.cautions.size(), 1U);
    EXPECT_EQ(paper.head, m_shop->store().headDigest().substr(0, 16));
    for (const PaperTable* table : {&paper.weighings, &paper.causes, &paper.absences}) {
        for (const auto& row : table->rows) {
            EXPECT_EQ(row.size(), table->columns.size()) << table->heading;
        }
    }
}
