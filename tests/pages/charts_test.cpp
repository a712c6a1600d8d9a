// The drawings of the books as they are printed, beside what was approved; see papers_test.cpp. What they
// show is checked by tests/shop/question_charts_test.cpp.
#include "core/shop/questions.h"
#include "tests/pages/support/approved_page.h"
#include "tests/pages/support/page_shop.h"
#include "tests/support/clean_service_cylinders.h"
#include "ui/chart_drawing.h"
#include "ui/kit.h"
#include "ui/paper_font.h"

namespace tarebook::tests {
namespace {

class ChartPagesTest : public PageShop {
protected:
    void expectChart(const std::string& name, const char* question, const QuestionInput& input = {}) {
        const auto answer = answered(*m_shop, *questionNamed(question), input);
        ASSERT_TRUE(answer) << answer.error().text();
        ASSERT_TRUE(answer.value().chart);
        std::string head = m_shop->store().headDigest().substr(0, 16);
        fixHead(head);
        ChartDrawing drawing;
        drawing.setFont(paperFont(10)); // as large as a window may show it
        drawing.setChart(*answer.value().chart);
        ASSERT_TRUE(drawing.writePdf(qt(file("chart.pdf")), qt(answer.value().sentence),
                                     qt("Books at " + head), m_shop->settings().mass == MassUnit::pound));
        expectApproved(name, file("chart.pdf"));
    }
    /// Into a system until the cylinder weighs that.
    void charge(const char* serial, const char* gross, const char* system) {
        CheckIn facts;
        facts.serial = serial;
        facts.grossAfter = lb(gross);
        facts.to = std::string("system:") + system;
        expectRecorded(checkIn(*m_shop, facts));
    }
    static Date day(const char* text) { return Date::parse(text).value(); }
};

// Of the week's cylinders A101 is overdue; two others are tested every ten and twelve years.
TEST_F(ChartPagesTest, CalendarOfRetests) {
    beginWeek();
    expectRecorded(registerCylinders(*m_shop, cleanServiceCylinders()));
    expectChart("falls-due", "falls-due");
}

// In a shop of kilograms, on A4, by days and of one refrigerant.
TEST_F(ChartPagesTest, HoldingsDayByDay) {
    set("mass_unit", "kg");
    beginWeek();
    setTime("2026-09-16 09:00");
    recover("A102", "46.1", "ST-ALDER/GYM-1");
    setTime("2026-09-18 09:00");
    charge("A102", "40.0", "ST-ALDER/GYM-1");
    QuestionInput input{day("2026-09-10"), day("2026-09-18")};
    input.refrigerant = "R-410A";
    expectChart("held-days", "held", input);
}

// In a shop of pounds, on Letter, month by month to a day in September, the lines of three refrigerants told
// apart by their dashes.
TEST_F(ChartPagesTest, HoldingsMonthByMonth) {
    setTime("2026-02-10 09:00");
    enter("N1", "12 lb", "R-410A");
    setTime("2026-04-20 09:00");
    enter("N2", "24 lb", "R-134a", "Brightwater Grocers");
    setTime("2026-06-15 09:00");
    beginWeek(); // 14.6 lb of R-22, 45.0 of R-410A
    setTime("2026-07-01 09:00");
    charge("D001", "12.6", "ST-ALDER/GYM-1"); // 18.5 of its 25 lb
    setTime("2026-09-14 08:30");
    recover("A103", "35.1", "HARBOR/DOCK-1"); // 3.5 lb above its 31.6
    expectChart("held-months", "held", {day("2026-01-01"), day("2026-09-18")});
}

} // namespace
} // namespace tarebook::tests
