// The racks walked with a scanner and a scale, at the command line. Book gross in pounds: A1 27.0 empty, A2
// 27.0 + 10.0, A3 27.0 + 20.0; scale and tare together within 0.3 lb, as a new shop has it.
#include "tests/app/ctl.h"

using namespace tarebook::tests;

namespace {

class StocktakeCommandTest : public CtlTest {
protected:
    void SetUp() override {
        CtlTest::SetUp();
        good("init s --zone America/Chicago");
        good("system s HARBOR/DOCK-1 --customer 'Ansel Harbor' --refrigerant R-22 --charge '60 lb'");
        for (const char* serial : {"A1", "A2", "A3"}) {
            good(fmt::format(
                "register s {} --specification DOT-4BA400 --water-capacity '47.7 lb' --tare '27 lb' "
                "--manufactured 2024-01 --evacuated",
                serial));
        }
        good("checkin s A2 --mass '10 lb' --from system:HARBOR/DOCK-1");
        good("checkin s A3 --mass '20 lb' --from system:HARBOR/DOCK-1");
    }
    [[nodiscard]] nlohmann::json line(const nlohmann::json& report, const char* serial) const {
        for (const auto& one : report["lines"]) {
            if (one["serial"] == serial) {
                return one;
            }
        }
        ADD_FAILURE() << serial << " is not in the report";
        return nlohmann::json::object();
    }
    [[nodiscard]] int entries() const { return good("verify s --json").json()["entries"].get<int>(); }
};

} // namespace

TEST_F(StocktakeCommandTest, ComparesAndProposesAndWritesNothing) {
    write("w.csv", "Cylinder,Weight (lb)\nA1,27.2\nA2,49.0\nA9,31\n");
    const int before = entries();
    const Answer answer = good("stocktake s w.csv --json");
    const auto report = answer.json();
    EXPECT_EQ(line(report, "A1")["verdict"], "agrees");
    const auto a2 = line(report, "A2");
    EXPECT_EQ(a2["verdict"], "varies");
    // 10 kg entered as 10 lb: 12.05 lb more.
    EXPECT_EQ(a2["causes"][0]["cause"], "unit slip") << a2.dump(1);
    EXPECT_EQ(a2["causes"][0]["commands"].size(), 2U);
    EXPECT_EQ(report["not_seen"][0]["serial"], "A3");
    EXPECT_EQ(report["unknown"][0]["serial"], "A9");
    EXPECT_NEAR(a2["uncertainties"].get<double>(), 12.0 / 0.3, 0.06);
    EXPECT_EQ(entries(), before);
    const Answer text = good("stocktake s w.csv");
    for (const char* part : {"3 weighed", "varies", "unit slip", "tarebookctl reverse s", "not seen", "A3"}) {
        EXPECT_NE(text.out.find(part), std::string::npos) << part << "\n" << text.out;
    }
}

// What the scale said of an earlier walk stands beside it: 'Gross' is the old one.
TEST_F(StocktakeCommandTest, TheColumnsOfASheetArePutRight) {
    write("w.csv", "No,Gross,Today\nA1,30.0,27.2\nA2,40.0,37.1\n");
    const Answer guessed = run("stocktake s w.csv");
    EXPECT_EQ(guessed.code, 1);
    EXPECT_NE(guessed.err.find("serial"), std::string::npos) << guessed.err;
    const auto report = good("stocktake s w.csv --column serial=No --column gross=#3 --json").json();
    EXPECT_EQ(line(report, "A1")["verdict"], "agrees");
    EXPECT_EQ(line(report, "A2")["verdict"], "agrees");
    const Answer wrong = run("stocktake s w.csv --column weight=Today");
    EXPECT_EQ(wrong.code, 1);
    EXPECT_NE(wrong.err.find("--column: 'weight' is no field of this sheet"), std::string::npos) << wrong.err;
}

// One way for all verbs that read a sheet.
TEST_F(StocktakeCommandTest, AnImportAndAPlanTakeColumnsAsWell) {
    write("people.csv", "Who,Paper\nMORGAN VALE,Type II 4711\n");
    EXPECT_EQ(run("import s people people.csv").code, 1);
    good("import s people people.csv --column name=Who --column certificate=Paper");
    EXPECT_EQ(good("person s --json").json()[0]["certificate"], "Type II 4711");
    write("jobs.csv", "Crew,What,Where,How much\nMORGAN VALE,recover,HARBOR/DOCK-1,9 lb\n");
    EXPECT_EQ(run("plan s --jobs jobs.csv").code, 1);
    const Answer planned = run("plan s --jobs jobs.csv --column technician=Crew --column direction=What "
                               "--column system=Where --column 'mass=How much' --json");
    EXPECT_LE(planned.code, 1) << planned.err; // whether it can be served is the plan's to say
    const auto plan = planned.json();
    EXPECT_EQ(plan["jobs"][0]["technician"], "MORGAN VALE");
    EXPECT_EQ(run("plan s --system HARBOR/DOCK-1 --expected '9 lb' --column mass=Mass").code, 2);
}

// The commands that are proposed are played as they stand; then scale and books agree.
TEST_F(StocktakeCommandTest, TheProposedCommandsMend) {
    write("w.csv", "serial,gross\nA2,49.05 lb\n"); // 27.0 + 22.05: 10 kg entered as 10 lb
    const auto a2 = line(good("stocktake s w.csv --json").json(), "A2");
    ASSERT_EQ(a2["causes"][0]["cause"], "unit slip") << a2.dump(1);
    for (const auto& command : a2["causes"][0]["commands"]) {
        const auto text = command.get<std::string>();
        ASSERT_EQ(text.rfind("tarebookctl ", 0), 0U) << text;
        good(text.substr(12));
    }
    EXPECT_EQ(line(good("stocktake s w.csv --json").json(), "A2")["verdict"], "agrees");
    EXPECT_EQ(good("verify s").code, 0);
}

TEST_F(StocktakeCommandTest, TakesTheErrorOfTheScaleAndThePlace) {
    write("w.csv", "serial,gross\nA1,27.45 lb\n");
    EXPECT_EQ(line(good("stocktake s w.csv --json").json(), "A1")["verdict"], "varies");
    const auto wide = good("stocktake s w.csv --scale-error '0.3 lb' --tare-error '0.4 lb' --json").json();
    EXPECT_EQ(line(wide, "A1")["verdict"], "agrees");
    EXPECT_NEAR(line(wide, "A1")["uncertainty_kg"].get<double>(), 0.5 * 0.45359237, 2e-6);
    EXPECT_TRUE(good("stocktake s w.csv --place 'rack 9' --json").json()["not_seen"].empty());
    for (const auto& [options, named] :
         {std::pair{"--scale-error heavy", "--scale-error"},
          std::pair{"--tare-error '0.1 lb'", "--tare-error"}, std::pair{"--occurred 2027-01-01", "after now"},
          std::pair{"--record --leave-out A7", "'A7'"}}) {
        const Answer refused = run(fmt::format("stocktake s w.csv {}", options));
        EXPECT_EQ(refused.code, 1) << options;
        EXPECT_NE(refused.err.find(named), std::string::npos) << refused.err;
    }
    EXPECT_EQ(run("stocktake s none.csv").code, 1);
}

TEST_F(StocktakeCommandTest, RecordsAllOrNothing) {
    write("bad.csv", "serial,gross,remark\nA1,27.0 lb,\nA2,,\nA3,46.0 lb,\n");
    const int before = entries();
    const Answer refused = run("stocktake s bad.csv --record");
    EXPECT_EQ(refused.code, 1);
    EXPECT_NE(refused.err.find("bad.csv:3: gross: the cell is blank"), std::string::npos) << refused.err;
    EXPECT_NE(refused.err.find("nothing was recorded: 1 row is refused"), std::string::npos) << refused.err;
    EXPECT_NE(refused.out.find("A3"), std::string::npos) << "the rest is answered";
    EXPECT_EQ(entries(), before);
    write("w.csv", "serial,gross,remark\nA1,27.0 lb,\nA2,37.0 lb,\nA3,46.0 lb,cap missing\n");
    const Answer done = good("stocktake s w.csv --record --leave-out A1");
    EXPECT_NE(done.out.find("Weighed A3: 46.0 lb gross, stocktake 2026-09-14, cap missing"),
              std::string::npos)
        << done.out;
    EXPECT_EQ(entries(), before + 2);
    EXPECT_EQ(line(good("stocktake s w.csv --json").json(), "A3")["verdict"], "agrees");
}
