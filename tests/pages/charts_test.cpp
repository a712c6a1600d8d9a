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
        expectNoColours(file("chart.pdf"));
        expectApproved(name, file("chart.pdf"));
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
    CheckIn charge;
    charge.serial = "A102";
    charge.grossAfter = lb("40.0");
    charge.to = "system:ST-ALDER/GYM-1";
    expectRecorded(checkIn(*m_shop, charge));
    QuestionInput input{day("2026-09-10"), day("2026-09-18")};
    input.refrigerant = "R-410A";
    expectChart("held-days", "held", input);
}

} // namespace
} // namespace tarebook::tests
