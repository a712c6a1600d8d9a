// Whether the books balance, month by month. Masses are differences of two weights in pounds of 0.45359237 kg
// exactly (international yard and pound agreement, 1959), added up by hand; that each row closes and opens is
// checked to the milligram over a journal replayed by brute force in tests/store/held_series_test.cpp.
#include "tests/shop/asked.h"
#include "tests/shop/week_register.h"
#include "tests/shop/week_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class QuestionBalancesTest : public ShopTest {
protected:
    /// 25.0 lb bought in August; the week's register in September; then 6.0 lb charged, 1.0 lb released, and
    /// 0.5 lb that the scale does not find any more.
    void play() {
        setTime("2026-08-10 09:00");
        expectRecorded(
            registerCylinder(*m_shop, weekCylinder("N1", "DOT-4BA400", "47.7", "27.0", "2025-03")));
        in("27.0", "52.0").from = "supplier:Harbor Supply";
        m_facts.refrigerant = "R-410A";
        enter();
        setTime("2026-09-14 08:30");
        ASSERT_TRUE(registerWeek(*m_shop)); // 14.6 lb of R-22; R-410A: 20.0 lb of Brightwater's, 25.0 lb
        setTime("2026-10-15 09:00");
        in("52.0", "46.0").to = "system:ST-ALDER/GYM-1";
        enter();
        in("46.0", "45.0").to = "atmosphere";
        enter();
        in("", "44.5");
        enter();
        setTime("2026-10-20 09:00");
    }
    CheckIn& in(const char* before, const char* after) {
        m_facts = {};
        m_facts.serial = "N1";
        if (*before != '\0') {
            m_facts.grossBefore = lb(before);
        }
        m_facts.grossAfter = lb(after);
        return m_facts;
    }
    void enter() { expectRecorded(checkIn(*m_shop, m_facts)); }
    [[nodiscard]] QuestionAnswer ask(const QuestionInput& input) {
        return askedOf(*m_shop, "balances", input);
    }
    static Date day(const char* text) { return Date::parse(text).value(); }

    CheckIn m_facts;
};

using Rows = std::vector<std::vector<std::string>>;

} // namespace

TEST_F(QuestionBalancesTest, EveryMonthOpensWithWhatTheOneBeforeClosedWith) {
    play();
    const QuestionAnswer all = ask({day("2026-07-10"), day("2026-12-31")});
    EXPECT_EQ(all.table.columns, (std::vector<std::string>{"from", "to", "refrigerant", "opening_kg", "in_kg",
                                                           "out_kg", "variance_kg", "closing_kg"}));
    // 25.0 lb 11.339809; 20.0 lb 9.071847, together 20.411656 in; 7.0 lb are 2.721554 + 0.453592 out; 0.5 lb
    // 0.226797. July, in which nothing was, has no row.
    EXPECT_EQ(all.table.rows, (Rows{{"2026-08-01", "2026-08-31", "R-410A", "0.000000", "11.339809",
                                     "0.000000", "0.000000", "11.339809"},
                                    {"2026-09-01", "2026-09-30", "R-22", "0.000000", "6.622449", "0.000000",
                                     "0.000000", "6.622449"},
                                    {"2026-09-01", "2026-09-30", "R-410A", "11.339809", "20.411656",
                                     "0.000000", "0.000000", "31.751465"},
                                    {"2026-10-01", "2026-10-20", "R-22", "6.622449", "0.000000", "0.000000",
                                     "0.000000", "6.622449"},
                                    {"2026-10-01", "2026-10-20", "R-410A", "31.751465", "0.000000",
                                     "3.175146", "-0.226797", "28.349522"}}));
    // 25.0 + 14.6 + 20.0 + 25.0 = 84.6 lb in; 7.0 out; 0.5 lost: 77.1.
    for (const char* part :
         {"from 2026-07-10 to 2026-10-20", "0.0 lb at the beginning, 84.6 lb in, 7.0 lb out",
          "variance -0.5 lb, 77.1 lb at the end",
          "Gone through one by one, the cylinders held the same on both days"}) {
        EXPECT_NE(all.sentence.find(part), std::string::npos) << part << " in: " << all.sentence;
    }
    EXPECT_TRUE(all.entries.empty()) << "of a long period they are asked for row by row";
    EXPECT_FALSE(all.chart);
}

TEST_F(QuestionBalancesTest, EachRowOpensToItsEntries) {
    play();
    const QuestionInput input{day("2026-07-10"), day("2026-12-31")};
    const QuestionAnswer all = ask(input);
    ASSERT_EQ(all.pieces.size(), all.table.rows.size());
    const auto sentences = [&](std::size_t row) {
        std::vector<std::string> said;
        const auto lines = linesOfPiece(*m_shop, input, all.pieces[row]);
        for (const HistoryLine& line : lines.value()) {
            said.push_back(line.sentence);
        }
        return said;
    };
    ASSERT_EQ(sentences(0).size(), 1U);
    EXPECT_NE(sentences(0)[0].find("25.0 lb"), std::string::npos) << sentences(0)[0];
    EXPECT_EQ(sentences(1).size(), 1U) << "the R-22 of A103 alone";
    EXPECT_EQ(sentences(2).size(), 2U) << "A105 and D001";
    EXPECT_TRUE(sentences(3).empty()) << "it only lay there";
    EXPECT_EQ(sentences(4).size(), 3U) << "charged, released, weighed";
    // Of a period up to a month they are listed at once.
    EXPECT_EQ(ask({day("2026-10-01"), day("2026-10-20")}).entries.size(), 3U);
}

TEST_F(QuestionBalancesTest, OneRefrigerantOneOwnerOrDayByDay) {
    play();
    QuestionInput input{day("2026-09-01"), day("2026-10-20")};
    input.owner = "Brightwater Grocers";
    EXPECT_EQ(ask(input).table.rows, (Rows{{"2026-09-01", "2026-09-30", "R-410A", "0.000000", "9.071847",
                                            "0.000000", "0.000000", "9.071847"},
                                           {"2026-10-01", "2026-10-20", "R-410A", "9.071847", "0.000000",
                                            "0.000000", "0.000000", "9.071847"}}));
    EXPECT_NE(ask(input).sentence.find("Of refrigerant owned by Brightwater Grocers, from"),
              std::string::npos);
    EXPECT_EQ(ask(input).pieces.size(), 2U);
    EXPECT_EQ(linesOfPiece(*m_shop, input, ask(input).pieces[0]).value().size(), 1U) << "not D001";
    input.owner = "Brightwater Grocer";
    const auto slip = answered(*m_shop, *questionNamed("balances"), input);
    ASSERT_FALSE(slip);
    EXPECT_NE(slip.error().text().find("Brightwater Grocers"), std::string::npos) << slip.error().text();
    input = {day("2026-10-14"), day("2026-10-16")};
    input.refrigerant = "r410a";
    input.step = HeldStep::day;
    const Rows days = ask(input).table.rows;
    ASSERT_EQ(days.size(), 3U);
    EXPECT_EQ(days[0][0], "2026-10-14");
    EXPECT_EQ(days[0][1], "2026-10-14");
    EXPECT_EQ(days[0][7], "31.751465");
    EXPECT_EQ(days[1], (std::vector<std::string>{"2026-10-15", "2026-10-15", "R-410A", "31.751465",
                                                 "0.000000", "3.175146", "-0.226797", "28.349522"}));
    EXPECT_EQ(days[2][3], "28.349522");
}
