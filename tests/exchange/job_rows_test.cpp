#include "core/exchange/job_rows.h"

#include <gtest/gtest.h>

using namespace tarebook;

namespace {

std::vector<JobRow> rowsOf(const std::string& text) {
    const auto sheet = readSheet(text);
    EXPECT_TRUE(sheet);
    const auto rows = readJobRows(sheet.value(), guessColumns(sheet.value(), SheetKind::jobs, SheetHabits{}));
    EXPECT_TRUE(rows) << (rows ? "" : rows.error().text());
    return rows ? rows.value() : std::vector<JobRow>();
}

} // namespace

// As people write it: other names and order, a unit in the header, a decimal comma, an empty row. A pound is
// 0.45359237 kg exactly (NIST Handbook 44, Appendix C).
TEST(JobRows, ReadsAMessySheet) {
    const auto rows = rowsOf("Time;Tech;Work order;What;Gas;Weight (kg);Customer;How;Unit\n"
                             "7.30;MORGAN VALE;J-1;Recovery;R-22;12,25;Ansel Harbor;Push-Pull;HARBOR/DOCK-1\n"
                             ";;;;;;;;\n"
                             "14:05;JULES ARBOR;;charge;R-410A;10 lb;;;\n");
    ASSERT_EQ(rows.size(), 2U);
    ASSERT_TRUE(rows[0].job && rows[1].job);
    const DayJob& first = *rows[0].job;
    EXPECT_EQ(first.line, 2);
    EXPECT_EQ(first.minute, std::optional(450));
    EXPECT_EQ(first.person, "MORGAN VALE");
    EXPECT_EQ(first.job, "J-1");
    EXPECT_EQ(first.plan.purpose, Purpose::recover);
    EXPECT_EQ(first.plan.refrigerant, "R-22");
    EXPECT_EQ(first.plan.expected.milligrams(), 12'250'000);
    EXPECT_EQ(first.plan.owner, "Ansel Harbor");
    EXPECT_EQ(first.plan.method, Method::pushPull);
    EXPECT_EQ(first.plan.system, "HARBOR/DOCK-1");
    const DayJob& second = *rows[1].job;
    EXPECT_EQ(second.plan.purpose, Purpose::charge);
    EXPECT_EQ(second.plan.expected.milligrams(), 4'535'924);
    EXPECT_EQ(second.minute, std::optional(845));
    EXPECT_TRUE(rowsOf("technician,direction,refrigerant,mass,burn_out\nX,recover,R-22,9 lb,yes\n")[0]
                    .job->plan.burnOut);
}

TEST(JobRows, NamesTheColumnAndWhatWouldBeRight) {
    const auto rows = rowsOf("technician,direction,refrigerant,mass,method,hour,machine,burn_out\n"
                             ",recover,R-22,9 lb,,,,\n"
                             "X,both,R-22,9 lb,,,,\n"
                             "X,recover,,9 lb,,,,\n"
                             "X,recover,R-22,0 lb,,,,\n"
                             "X,recover,R-22,9 lb,siphon,,,\n"
                             "X,recover,R-22,9 lb,,25:00,,\n"
                             "X,charge,R-22,9 lb,liquid,,RM-1,yes\n"
                             "X,recover,R-22,9 lb,,,,perhaps\n"
                             "X,in,R-22,9 lb,,,,\n"
                             "X,Out,R-22,9 lb,,,,\n");
    ASSERT_EQ(rows.size(), 10U);
    const auto problem = [&](std::size_t row) {
        EXPECT_FALSE(rows[row].job) << row;
        return rows[row].problems.empty()
                   ? std::string()
                   : rows[row].problems[0].column + ": " + rows[row].problems[0].error.text();
    };
    EXPECT_EQ(problem(0), "technician: the cell is blank; write who goes");
    EXPECT_EQ(problem(1), "direction: 'both' is no direction; write recover or charge");
    EXPECT_EQ(problem(2),
              "refrigerant: the row names neither a refrigerant nor a system; write one of them; a "
              "system is SITE/TAG");
    EXPECT_EQ(problem(3), "mass: the expected mass must be above zero; as 32 lb");
    EXPECT_EQ(problem(4), "method: 'siphon' is no method of recovery; one of liquid, vapour, push-pull");
    EXPECT_EQ(problem(5), "hour: '25:00' is no hour of the day; as 7 or 07:30");
    EXPECT_EQ(problem(6), "method: belongs to a recovery; leave it blank for a charge");
    EXPECT_EQ(rows[6].problems.size(), 3U);
    EXPECT_EQ(problem(7), "burn_out: 'perhaps' is neither yes nor no; write yes or no");
    // Into the system is out of the cylinder: neither word is guessed.
    EXPECT_EQ(problem(8),
              "direction: 'in' may be meant of the cylinder or of the system; write recover or charge");
    EXPECT_EQ(problem(9),
              "direction: 'Out' may be meant of the cylinder or of the system; write recover or charge");
}

TEST(JobRows, AnHourIsReadAsPeopleWriteIt) {
    EXPECT_EQ(readHour("7").value(), 420);
    EXPECT_EQ(readHour("0:00").value(), 0);
    EXPECT_EQ(readHour(" 23.59 ").value(), 1'439);
    for (const char* wrong : {"", "24", "7:5", "7:60", "7:30:00", "noon", "-1", "7:"}) {
        EXPECT_FALSE(readHour(wrong)) << wrong;
    }
}
