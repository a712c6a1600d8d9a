// The plan of a day, as it is printed. Rooms: the week at the counter (A105 takes 20.5 lb on top of what it
// holds for the grocers). That liquid is taken before vapour: common practice, as the table methods has it.
#include "core/papers/day_paper.h"

#include "tests/shop/week_jobs.h"
#include "tests/shop/week_register.h"
#include "tests/shop/week_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

using DayPaperTest = ShopTest;

TEST_F(DayPaperTest, EveryTechnicianHasATableAndWhatIsLeftIsNamed) {
    ASSERT_TRUE(registerWeek(*m_shop));
    const DayJob served =
        dayJob(2, "JULES ARBOR", "J-1", 7 * 60 + 30, "BRIGHTWATER/STORE-2", "15", Method::liquid);
    const DayJob left = dayJob(3, "JULES ARBOR", "J-2", 9 * 60, "BRIGHTWATER/STORE-2", "400", Method::liquid);
    const DayPlan plan = planDay(*m_shop, m_shop->today(), {served, left}).value();
    const DayPaper paper = paperOf(*m_shop, plan);
    EXPECT_EQ(paper.summary, "1 cylinder for 1 of 2 jobs, proved the fewest");
    EXPECT_EQ(paper.day, "2026-09-14");
    EXPECT_EQ(paper.shop, "Larkspur Mechanical");
    ASSERT_EQ(paper.technicians.size(), 1U);
    EXPECT_EQ(paper.technicians[0].heading, "JULES ARBOR");
    ASSERT_EQ(paper.technicians[0].rows.size(), 1U);
    const auto& row = paper.technicians[0].rows[0];
    EXPECT_EQ(row[0], "07:30");
    EXPECT_EQ(row[2], "recover 15.0 lb R-410A");
    EXPECT_EQ(row[3], "A105");
    EXPECT_EQ(row[4], "15.0 lb");
    ASSERT_EQ(paper.unserved.rows.size(), 1U);
    EXPECT_EQ(paper.unserved.rows[0][3], "recover 400.0 lb R-410A");
    EXPECT_NE(paper.unserved.rows[0][4].find("400.0 lb"), std::string::npos);
    // The steps are told from law.
    ASSERT_FALSE(paper.findings.empty());
    EXPECT_EQ(paper.findings[0].heading, "JULES ARBOR, J-1");
    EXPECT_NE(paper.findings[0].rows[0][2].find("common practice"), std::string::npos)
        << paper.findings[0].rows[0][2];
    EXPECT_EQ(paper.head, m_shop->store().headDigest().substr(0, 16));
    EXPECT_FALSE(paper.cautions.empty());
    std::vector<PaperTable> all = paper.technicians;
    all.insert(all.end(), paper.findings.begin(), paper.findings.end());
    all.push_back(paper.unserved);
    for (const PaperTable& table : all) {
        for (const auto& cells : table.rows) {
            EXPECT_EQ(cells.size(), table.columns.size()) << table.heading;
        }
    }
}
