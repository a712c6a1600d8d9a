// A heat pump, a reversing valve or an accumulator between the service ports keeps push-pull from working:
// common practice of the trade, from memory. It is no use of the system: by the use alone a leak rule holds
// (40 CFR 82.157(c)(2), 84.106: comfort cooling 10 %, other appliances by their own rows).
#include "core/shop/port_marks.h"

#include "core/shop/equipment.h"
#include "core/shop/recovery_method.h"
#include "tests/shop/week_register.h"
#include "tests/shop/week_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class PortMarksTest : public ShopTest {
protected:
    void enter(const std::string& tag, const std::string& marks) {
        System system{"LOFT", tag, "St. Alder Schools", "R-410A", lb("60"), "comfort cooling"};
        setPortMarks(system, readPortMarks(marks).value());
        expectRecorded(m_shop->record(draftsOf(*m_shop, system)));
    }
    /// What push-pull is told of what is between the ports.
    Finding told(const std::string& tag) {
        JobPlan plan;
        plan.system = "LOFT/" + tag;
        plan.expected = lb("20");
        plan.method = Method::pushPull;
        for (const Finding& finding :
             methodFindings(*m_shop, systemNamed(*m_shop, plan.system), plan, m_shop->today())) {
            if (finding.rule == "plan.push-pull") {
                return finding;
            }
        }
        return {};
    }
};

} // namespace

TEST_F(PortMarksTest, AreReadAndWrittenAsWords) {
    for (const auto& [typed, shown] :
         {std::pair<const char*, const char*>{"", ""},
          {"Heat-pump", "heat pump"},
          {"accumulator; no heat pump", "no heat pump, accumulator"},
          {"none", "none"},
          {"no heat pump, no reversing valve, no accumulator", "none"},
          {"none, accumulator", "no heat pump, no reversing valve, accumulator"}}) {
        System system;
        const auto read = readPortMarks(typed);
        ASSERT_TRUE(read) << typed;
        setPortMarks(system, read.value());
        EXPECT_EQ(portMarksText(system), shown);
        System again;
        setPortMarks(again, readPortMarks(portMarksText(system)).value());
        EXPECT_EQ(portMarksText(again), shown);
    }
    EXPECT_FALSE(readPortMarks("heatpump or so"));
}

TEST_F(PortMarksTest, DecideOnPushPullOneByOne) {
    for (const auto& [tag, marks, why] :
         {std::tuple<const char*, const char*, const char*>{"HP", "heat pump", "it is a heat pump"},
          {"RV", "no heat pump, reversing valve", "there is a reversing valve between the service ports"},
          {"AC", "accumulator", "there is an accumulator between the service ports"}}) {
        enter(tag, marks);
        EXPECT_EQ(told(tag).severity, Severity::refusal) << tag;
        EXPECT_EQ(told(tag).headline, std::string("No push-pull on LOFT/") + tag + ": " + why + ".");
    }
    enter("FREE", "none");
    EXPECT_EQ(told("FREE").severity, Severity::note);
    EXPECT_EQ(told("FREE").headline,
              "Can a solid column of liquid form between the service ports? The books do not know.");
    enter("HALF", "no heat pump");
    EXPECT_EQ(told("HALF").headline,
              "Is there a reversing valve or an accumulator between the service ports, "
              "or can no solid column of liquid form? The books do not know.");
    enter("UNKNOWN", "");
    EXPECT_NE(told("UNKNOWN").headline.find("a heat pump, a reversing valve or an accumulator"),
              std::string::npos);
}

TEST_F(PortMarksTest, LeaveTheLeakRuleOfTheUseAsItWas) {
    enter("COOL", "");
    enter("HP", "heat pump");
    const auto one = leaks(*m_shop, m_shop->today(), "LOFT/COOL");
    const auto other = leaks(*m_shop, m_shop->today(), "LOFT/HP");
    ASSERT_TRUE(one && other);
    ASSERT_TRUE(one.value().front().threshold && other.value().front().threshold);
    EXPECT_EQ(one.value().front().threshold->percent, other.value().front().threshold->percent);
}

TEST_F(PortMarksTest, StayAsTheyAreWhereTheyAreNotNamed) {
    enter("HP", "heat pump, no accumulator");
    const System again{"LOFT", "HP", "St. Alder Schools", "R-410A", lb("61"), "comfort cooling"};
    expectRecorded(m_shop->record(draftsOf(*m_shop, again)));
    EXPECT_EQ(portMarksText(*systemNamed(*m_shop, "LOFT/HP")), "heat pump, no accumulator");
    // An entry of an older program names none of them.
    EXPECT_EQ(portMarksText(System{"LOFT", "OLD", "", "R-410A", {}, ""}), "");
}
