// The figures behind the pictures of the books. Retest months are counted by hand from the marks, by 49 CFR
// 180.209(a) (five years for DOT 4B, 4BA, 4BW), 180.209(e) (twelve years for such cylinders, coated and kept
// to noncorrosive gas, or ten after a proof pressure test, marked S) and 178.65(i) (DOT 39 is never
// requalified). Masses are differences of two weights in pounds of 0.45359237 kg exactly (international yard
// and pound agreement, 1959).
#include "tests/shop/asked.h"
#include "tests/shop/week_register.h"
#include "tests/shop/week_shop.h"
#include "tests/support/clean_service_cylinders.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class QuestionChartsTest : public ShopTest {
protected:
    [[nodiscard]] QuestionAnswer ask(const char* name, const QuestionInput& input = {}) {
        return askedOf(*m_shop, name, input);
    }
    static Date day(const char* text) { return Date::parse(text).value(); }
    /// Serials of the rows of the point with this label; the label itself where there is none.
    static std::string serialsAt(const QuestionAnswer& answer, const std::string& label) {
        for (const ChartPoint& point : answer.chart->points) {
            if (point.label == label) {
                std::string text;
                for (const std::size_t row : point.rows) {
                    text += (text.empty() ? "" : " ") + answer.table.rows[row][2];
                }
                return text;
            }
        }
        return "no point " + label;
    }
    static std::string valuesOf(const AnswerChart& chart, const std::string& series) {
        for (const ChartSeries& one : chart.series) {
            if (one.name == series) {
                std::string text;
                for (const std::int64_t value : one.values) {
                    text += (text.empty() ? "" : " ") + std::to_string(value);
                }
                return text;
            }
        }
        return "no series " + series;
    }
    void bought(const char* serial, const char* before, const char* after) {
        CheckIn facts;
        facts.serial = serial;
        facts.grossBefore = lb(before);
        facts.grossAfter = lb(after);
        facts.from = "supplier:Harbor Supply";
        facts.refrigerant = "R-410A";
        expectRecorded(checkIn(*m_shop, facts));
    }
};

constexpr std::int64_t kTenthOfPound = 45'359'237; // in thousandths of a milligram

/// Milligrams of so many tenths of a pound, to the nearest.
std::int64_t tenths(std::int64_t number) {
    return (number * kTenthOfPound + 500) / 1000;
}

} // namespace

TEST_F(QuestionChartsTest, RetestsStandInTheMonthThatTheRulebookGives) {
    ASSERT_TRUE(registerWeek(*m_shop));
    expectRecorded(registerCylinders(*m_shop, cleanServiceCylinders()));
    const QuestionAnswer answer = ask("falls-due"); // on 2026-09-14
    ASSERT_TRUE(answer.chart);
    const AnswerChart& chart = *answer.chart;
    // Overdue, September 2026 to December 2027, then 2028 to 2031, the year of the last date.
    ASSERT_EQ(chart.points.size(), 1U + 16U + 4U);
    EXPECT_TRUE(chart.points.front().apart);
    EXPECT_EQ(serialsAt(answer, "overdue"), "A101"); // 2021-03 + 5 years = 2026-03
    EXPECT_EQ(serialsAt(answer, "2027-05"), "A104"); // 2022-05 + 5
    EXPECT_EQ(serialsAt(answer, "2027-10"), "A105"); // 2022-10 + 5
    EXPECT_EQ(serialsAt(answer, "2026-09"), "");
    EXPECT_EQ(serialsAt(answer, "2028"), "A102");     // 2023-06 + 5
    EXPECT_EQ(serialsAt(answer, "2029"), "A103");     // 2024-10 + 5
    EXPECT_EQ(serialsAt(answer, "2030"), "A107 C10"); // 2025-02 + 5, 2020-04 + 10
    EXPECT_EQ(serialsAt(answer, "2031"), "C12");      // 2019-10 + 12
    EXPECT_EQ(valuesOf(chart, "every 10 years"), "0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 1 0");
    EXPECT_EQ(valuesOf(chart, "every 12 years"), "0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 1");
    EXPECT_EQ(chart.totals.front(), 1);
    EXPECT_EQ(chart.totals[19], 2);
    EXPECT_EQ(
        answer.table.rows.front(),
        (std::vector<std::string>{"2026-03", "yes", "A101", "5", "retest.base-5", "49 CFR 180.209(a)", ""}));
    EXPECT_NE(answer.sentence.find("8 cylinders have a retest date"), std::string::npos) << answer.sentence;
    EXPECT_NE(
        answer.sentence.find("1 is overdue on 2026-09-14, 1 falls due in the 12 months from 2026-09 on. "
                             "Left out: 1 never falls due."),
        std::string::npos)
        << answer.sentence; // A104; 2027-10 is the month after the twelve
}

// 49 CFR 180.205(c), by the reading of the rulebook: the last day of the due month is the last for filling.
TEST_F(QuestionChartsTest, ACylinderIsOverdueFromTheMonthAfterAndLeavesTheCalendarOnceCondemned) {
    expectRecorded(registerCylinder(*m_shop, weekCylinder("M1", "DOT-4BA400", "47.7", "27.0", "2021-09")));
    setTime("2026-09-30 23:30");
    EXPECT_EQ(serialsAt(ask("falls-due"), "2026-09"), "M1");
    EXPECT_NE(ask("falls-due").sentence.find("1 cylinder has a retest date"), std::string::npos);
    setTime("2026-10-01 00:30");
    EXPECT_EQ(serialsAt(ask("falls-due"), "overdue"), "M1");
    EXPECT_EQ(serialsAt(ask("falls-due"), "2026-09"), "no point 2026-09")
        << "the calendar begins with its month";
    expectRecorded(condemn(*m_shop, "M1", "bulged"));
    const QuestionAnswer answer = ask("falls-due");
    EXPECT_EQ(serialsAt(answer, "overdue"), "");
    EXPECT_NE(answer.sentence.find("Left out: 1 is condemned."), std::string::npos) << answer.sentence;
    EXPECT_FALSE(answer.chart->points.empty());
}

TEST_F(QuestionChartsTest, HoldingsAreWhatTheWeightsSay) {
    setTime("2026-08-10 09:00");
    expectRecorded(registerCylinder(*m_shop, weekCylinder("N1", "DOT-4BA400", "47.7", "27.0", "2025-03")));
    bought("N1", "27.0", "52.0"); // 25.0 lb
    setTime("2026-09-14 08:30");
    ASSERT_TRUE(registerWeek(*m_shop)); // 14.6 lb of R-22; R-410A: 20.0 lb of Brightwater's, 25.0 lb
    setTime("2026-09-15 09:00");
    CheckIn charge;
    charge.serial = "N1";
    charge.grossBefore = lb("52.0");
    charge.grossAfter = lb("46.0");
    charge.to = "system:ST-ALDER/GYM-1"; // 6.0 lb of it
    expectRecorded(checkIn(*m_shop, charge));
    const Sequence charged = m_shop->store().headSeq();

    QuestionInput input{day("2026-07-10"), day("2026-12-31")};
    const QuestionAnswer all = ask("held", input);
    ASSERT_TRUE(all.chart);
    ASSERT_EQ(all.chart->points.size(), 4U) << "not beyond today";
    EXPECT_EQ(all.chart->points[0].label, "2026-07-09");
    EXPECT_EQ(all.chart->points[1].label, "2026-07");
    EXPECT_EQ(all.chart->points[3].label, "2026-09-15");
    const std::int64_t left = tenths(250) + tenths(200) + tenths(250) - tenths(60);
    ASSERT_EQ(all.chart->series.size(), 2U);
    EXPECT_EQ(all.chart->series[0].name, "R-410A") << "the one that was most comes first";
    EXPECT_EQ(all.chart->series[0].values, (std::vector<std::int64_t>{0, 0, tenths(250), left}));
    EXPECT_EQ(all.chart->series[1].values, (std::vector<std::int64_t>{0, 0, 0, tenths(146)}));
    EXPECT_EQ(all.chart->totals.back(), left + tenths(146));
    EXPECT_EQ(all.table.rows.size(), 3U) << "what was not held has no row";
    // In the words of a shop of pounds: 25.0 + 20.0 + 25.0 - 6.0 lb, and 14.6 lb; to the milligram in the
    // table.
    EXPECT_EQ(all.chart->points[3].words,
              "End of 2026-09-15: 14.6 lb of R-22, 64.0 lb of R-410A; 78.6 lb in all");
    EXPECT_NE(all.sentence.find(
                  "held 0.0 lb of refrigerant at the end of 2026-07-09 and 78.6 lb at the end of 2026-09-15"),
              std::string::npos)
        << all.sentence;
    EXPECT_EQ(all.chart->up, "held, lb");
    EXPECT_EQ(all.chart->unit, AnswerChart::Unit::pounds);
    EXPECT_EQ(all.table.rows[1], (std::vector<std::string>{"2026-09-15", "R-22", "6.622449"}));
    EXPECT_TRUE(all.entries.empty()) << "of a long period they are asked for point by point";
    const auto sums = balance(*m_shop, day("2026-07-10"), day("2026-09-15"));
    for (const PeriodSum& sum : sums.value()) {
        EXPECT_EQ(sum.closing, sum.refrigerant == "R-22" ? tenths(146) : left);
    }

    const auto behind = linesOfPoint(*m_shop, input, all.chart->points[3]);
    ASSERT_TRUE(behind);
    ASSERT_EQ(behind.value().size(), 4U); // three of the register, and the charge
    EXPECT_EQ(behind.value().back().entry, charged);
    EXPECT_TRUE(linesOfPoint(*m_shop, input, all.chart->points[0]).value().empty());

    input.owner = "Brightwater Grocers";
    EXPECT_EQ(ask("held", input).chart->totals.back(), tenths(200));
    input.owner = kShopAsOwner;
    EXPECT_EQ(ask("held", input).chart->totals,
              (std::vector<std::int64_t>{0, 0, tenths(250), left - tenths(200)}));
    input.refrigerant = "r22";
    EXPECT_EQ(ask("held", input).chart->totals.back(), 0) << "that of the harbour";
    input.owner = "Ansel Harbor Cold Storage";
    EXPECT_EQ(ask("held", input).chart->totals.back(), tenths(146));

    const QuestionInput days{day("2026-09-13"), day("2026-09-15"), {}, "R-410A"};
    const QuestionAnswer each = ask("held", days);
    EXPECT_EQ(each.chart->totals,
              (std::vector<std::int64_t>{tenths(250), tenths(250), left + tenths(60), left}));
    EXPECT_EQ(each.entries.size(), 3U); // two of the register, and the charge
    expectRecorded(m_shop->reverse(charged, "the scale of another cylinder"));
    EXPECT_EQ(ask("held", days).chart->totals.back(), left + tenths(60))
        << "what was taken back did not happen";
}

TEST_F(QuestionChartsTest, AShopOfKilogramsIsToldKilograms) {
    ASSERT_TRUE(registerWeek(*m_shop));
    Settings settings = m_shop->settings();
    ASSERT_TRUE(settings.set("mass_unit", "kg"));
    expectRecorded(m_shop->change(settings));
    const QuestionAnswer answer = ask("held", {day("2026-09-14"), day("2026-09-14"), {}, "R-22"});
    // 14.6 x 0.45359237 = 6.6224... kg
    EXPECT_NE(answer.sentence.find("and 6.62 kg at the end of"), std::string::npos) << answer.sentence;
    EXPECT_EQ(answer.chart->points.back().words, "End of 2026-09-14: 6.62 kg of R-22");
    EXPECT_EQ(answer.chart->up, "held, kg");
    EXPECT_EQ(answer.chart->unit, AnswerChart::Unit::kilograms);
    EXPECT_EQ(answer.table.rows.back()[2], "6.622449");
}

TEST_F(QuestionChartsTest, WhatCannotBeAskedIsSaid) {
    ASSERT_TRUE(registerWeek(*m_shop));
    const auto refused = [&](const QuestionInput& input) {
        const auto answer = answered(*m_shop, *questionNamed("held"), input);
        return answer ? std::string("answered") : answer.error().text();
    };
    QuestionInput input{day("2026-09-20"), day("2026-09-30")};
    EXPECT_NE(refused(input).find("still to come"), std::string::npos) << refused(input);
    input = {day("2026-09-14"), day("2026-09-01")};
    EXPECT_NE(refused(input).find("before it begins"), std::string::npos) << refused(input);
    input = {day("1990-01-01"), day("2026-09-14")};
    input.step = HeldStep::day;
    EXPECT_NE(refused(input).find("ask by month"), std::string::npos) << refused(input);
    input.step = HeldStep::month;
    input.refrigerant = "R-4l0A";
    EXPECT_NE(refused(input).find("R-410A"), std::string::npos) << "the nearest is named: " << refused(input);
    input.refrigerant.clear();
    input.owner = "Brightwater Grocer";
    EXPECT_NE(refused(input).find("Brightwater Grocers"), std::string::npos) << refused(input);
}

TEST_F(QuestionChartsTest, MoreLinesThanCanBeToldApartAreTakenTogether) {
    const std::vector<std::string> kinds = {"R-22",   "R-134a", "R-404A", "R-407C", "R-410A",
                                            "R-448A", "R-32",   "R-507A", "R-449A"};
    int number = 0;
    for (const std::string& refrigerant : kinds) {
        const std::string serial = fmt::format("K{}", ++number);
        NewCylinder one = weekCylinder(serial, "DOT-4BA400", "47.7", "27.0", "2025-03");
        one.evacuated = false;
        one.content = lb(fmt::format("{}.0", number)); // 1 to 9 lb
        one.refrigerant = refrigerant;
        one.contentState = GasState::unused;
        one.source = "supplier:Harbor Supply";
        expectRecorded(registerCylinder(*m_shop, one));
    }
    const QuestionAnswer answer = ask("held", {day("2026-09-01"), day("2026-09-14")});
    ASSERT_EQ(answer.chart->series.size(), 8U);
    EXPECT_EQ(answer.chart->series.front().name, "R-449A");
    EXPECT_EQ(answer.chart->series.back().name, "2 others");
    EXPECT_EQ(answer.chart->series.back().values.back(), tenths(10) + tenths(20));
    std::int64_t sum = 0;
    for (const ChartSeries& one : answer.chart->series) {
        sum += one.values.back();
    }
    EXPECT_EQ(sum, answer.chart->totals.back());
}
