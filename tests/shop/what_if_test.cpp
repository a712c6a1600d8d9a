// Contents that nobody has put together yet. Pressures at 55 degC: tests/standards/properties (published
// equations of state); the comparison: 5/4 of the marked service pressure, 49 CFR 173.301(a)(8).
#include "core/shop/what_if.h"

#include "core/base/table.h"
#include "tests/shop/week_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class WhatIfTest : public ShopTest {};

const MarkVerdict& verdictOf(const WhatIf& what, const std::string& mark) {
    for (const MarkVerdict& verdict : what.marks) {
        if (verdict.mark == mark) {
            return verdict;
        }
    }
    throw std::runtime_error("no verdict for " + mark);
}

} // namespace

TEST_F(WhatIfTest, TheMarksAgreeWithTheTableOfPressures) {
    const auto table = readTableFile(TAREBOOK_TEST_DIR "/standards/properties/pressure-rating-55C.csv");
    ASSERT_TRUE(table) << table.error().text();
    const auto cell = [&](const auto& row, const std::string& name) {
        return row[static_cast<std::size_t>(table.value().column(name))];
    };
    int compared = 0;
    for (const auto& row : table.value().rows) {
        const auto designation = m_shop->catalogue().designation(cell(row, "designation"));
        const double gauge = std::strtod(cell(row, "p_bubble_55C_psig").c_str(), nullptr);
        if (!designation || gauge == 0) {
            continue; // not in the catalogue under that name, or no liquid at 55 degC
        }
        const auto what = whatIf(*m_shop, designation.value());
        if (!what || !what.value().at55) {
            continue; // within 3 % of its critical temperature: the model does not answer
        }
        for (const int mark : {240, 260, 300, 350, 400}) {
            const MarkVerdict& verdict = verdictOf(what.value(), fmt::format("DOT-4BA{}", mark));
            const double margin = std::abs(gauge / (1.25 * mark) - 1);
            // Rows of 173.304a(a)(2) that name a gas, and the floor of its generic row, are other rules.
            if (verdict.rule != "pressure.five-quarters" || margin < 0.02) {
                continue;
            }
            ++compared;
            EXPECT_EQ(verdict.suits, cell(row, fmt::format("ok_{}", mark)) == "yes")
                << designation.value() << " in " << mark << ": " << verdict.working;
        }
    }
    EXPECT_GT(compared, 200);
}

TEST_F(WhatIfTest, ALittlePropaneBurstsTheRuleThatR410AKeeps) {
    const auto plain = whatIf(*m_shop, "R-410A");
    ASSERT_TRUE(plain);
    EXPECT_NEAR(plain.value().at55->psi(), 484.2, 0.5);
    EXPECT_EQ(plain.value().weakestMark, "DOT-4BA400");
    EXPECT_TRUE(plain.value().safetyNote.empty());
    // From memory: propane and R-410A boil together at more pressure than either (a positive azeotrope). The
    // limit of the class is 500 psig, five quarters of 400.
    const auto topped = whatIf(*m_shop, "R-410A", "R-290", 0.05);
    ASSERT_TRUE(topped) << topped.error().text();
    EXPECT_GT(topped.value().at55->psi(), 500);
    EXPECT_FALSE(verdictOf(topped.value(), "DOT-4BA400").suits);
    EXPECT_NE(topped.value().weakestMark, "DOT-4BA400");
    EXPECT_FALSE(topped.value().safetyNote.empty());
    EXPECT_TRUE(topped.value().name.starts_with("MIXED: "));
}

TEST_F(WhatIfTest, TheEndsOfTheShareAreTheRefrigerantsThemselves) {
    const auto first = whatIf(*m_shop, "R-22", "R-410A", 0);
    const auto last = whatIf(*m_shop, "R-22", "R-410A", 1);
    ASSERT_TRUE(first && last);
    EXPECT_EQ(first.value().name, "R-22");
    EXPECT_EQ(last.value().name, "R-410A");
    EXPECT_FALSE(whatIf(*m_shop, "R-22", "R-410A", 1.5));
    EXPECT_FALSE(whatIf(*m_shop, "R-22", "R-99", 0.5));
}
