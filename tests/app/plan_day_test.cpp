// All jobs of a day from a sheet, as a person types them. Rooms: the week at the counter (A102 takes 40.5 lb
// of R-410A; A101 is overdue).
#include "tests/app/week_ctl.h"

using namespace tarebook::tests;

namespace {

class PlanOfADay : public AWeekAtTheCommandLine {
protected:
    void SetUp() override {
        AWeekAtTheCommandLine::SetUp();
        begin();
    }
};

} // namespace

TEST_F(PlanOfADay, TheSheetIsReadAndEveryJobHasItsCylinders) {
    write("jobs.csv", "hour,technician,job,direction,system,mass,method\n"
                      "13:00,MORGAN VALE,J-2,recover,ST-ALDER/GYM-1,8 lb,\n"
                      "7:30,MORGAN VALE,J-1,recover,ST-ALDER/RTU-3,32 lb,liquid\n"
                      "8,JULES ARBOR,J-3,charge,BRIGHTWATER/STORE-2,10 lb,\n");
    const auto its = good("plan s --jobs jobs.csv --day 2026-09-15 --json").json();
    EXPECT_EQ(its["day"], "2026-09-15");
    EXPECT_TRUE(its["proved"].get<bool>());
    EXPECT_EQ(its["not_served"], 0);
    EXPECT_EQ(its["rows_refused"], 0);
    ASSERT_EQ(its["jobs"].size(), 3U);
    EXPECT_EQ(its["jobs"][0]["job"], "J-3") << "by technician, then by hour";
    EXPECT_EQ(its["jobs"][1]["job"], "J-1");
    EXPECT_EQ(its["jobs"][1]["hour"], "07:30");
    EXPECT_EQ(its["technicians"]["JULES ARBOR"], nlohmann::json({"A105"}))
        << "their own gas, and less is left over than of D001";
    ASSERT_EQ(its["technicians"]["MORGAN VALE"].size(), 1U) << "both schools' gas is one owner's";
    EXPECT_NEAR(pounds(its["jobs"][1]["take"][0]["share_kg"]), 32, 1e-4);
    EXPECT_NEAR(pounds(its["jobs"][2]["take"][0]["share_kg"]), 8, 1e-4);
    // What is to be watched with the cylinder stands before the steps of the method.
    EXPECT_EQ(its["jobs"][1]["findings"][0]["rule"], "plan.evacuation");
    EXPECT_EQ(its["jobs"][1]["findings"][1]["rule"], "plan.method");
    const auto text = good("plan s --jobs jobs.csv --day 2026-09-15").out;
    EXPECT_TRUE(holds(text, "2026-09-15: 2 cylinders for 3 of 3 jobs, proved the fewest")) << text;
    // With a tenth to spare 44 lb are more than one takes.
    EXPECT_EQ(good("plan s --jobs jobs.csv --margin '10 %' --json").json()["cylinders"], 3);
}

TEST_F(PlanOfADay, WhatIsWrongIsNamedAndTheRestIsPlanned) {
    write("jobs.csv", "technician,job,direction,system,mass\n"
                      "MORGAN VALE,J-1,recover,ST-ALDER/RTU-3,lots\n"
                      "MORGAN VALE,J-2,recover,ST-ALDER/GYM-1,8 lb\n"
                      "PAT NOBODY,J-3,recover,ST-ALDER/GYM-1,8 lb\n"
                      "JULES ARBOR,J-4,recover,ST-ALDER/RTU-3,400 lb\n");
    const auto answer = run("plan s --jobs jobs.csv");
    EXPECT_EQ(answer.code, 1);
    EXPECT_TRUE(holds(answer.err, "jobs.csv:2: mass:")) << answer.err;
    EXPECT_TRUE(holds(answer.out, "not served: PAT NOBODY is not in the register")) << answer.out;
    EXPECT_TRUE(holds(answer.out, "have lawful room for 400.0 lb of R-410A.")) << answer.out;
    EXPECT_TRUE(holds(answer.out, "1 cylinder for 1 of 3 jobs, proved the fewest")) << answer.out;
    struct Wrong {
        const char* arguments;
        const char* named;
    };
    for (const Wrong& wrong :
         {Wrong{"plan s --day 2026-09-01 --refrigerant R-22 --expected '9 lb'", "2026-09-01, has passed"},
          Wrong{"plan s --jobs jobs.csv --method liquid", "--method: the sheet says it of every job"},
          Wrong{"plan s --jobs jobs.csv --day 2026-09-01", "2026-09-01 has passed"},
          Wrong{"plan s --jobs none.csv", "none.csv"},
          Wrong{"plan s --jobs jobs.csv --margin some", "--margin: 'some' is no margin"},
          Wrong{"plan s --jobs people.csv", "no column gives the"}}) {
        const auto refused = run(wrong.arguments);
        EXPECT_EQ(refused.code, 1) << wrong.arguments;
        EXPECT_TRUE(holds(refused.err, wrong.named)) << wrong.arguments << ": " << refused.err;
    }
}
