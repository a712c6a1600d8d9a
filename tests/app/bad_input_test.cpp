// What a person, a script or a broken file may throw at the program: a clear answer, nothing half-written,
// never a crash. Exit codes and the form of messages are the contract of docs/command-line.md.
#include "tests/app/ctl.h"

using namespace tarebook::tests;

namespace {

class BadInputTest : public CtlTest {
protected:
    void SetUp() override {
        CtlTest::SetUp();
        good("init s --zone America/Chicago");
    }
    /// A sheet of one cylinder with these cells must be refused at this column, and nothing be written.
    void refused(const std::string& cells, const std::string& column) {
        write("c.csv", "serial,specification,water_capacity,tare,manufactured\n" + cells + "\n");
        const Answer answer = run("import s cylinders c.csv");
        EXPECT_EQ(answer.code, 1) << cells.substr(0, 80);
        EXPECT_NE(answer.err.find("c.csv:2: " + column), std::string::npos) << answer.err.substr(0, 400);
        EXPECT_EQ(good("fleet s --json").json().size(), 0U);
    }
    void registerOne() {
        good("register s A1 --specification DOT-4BA400 --water-capacity '47.7 lb' --tare '27 lb' "
             "--manufactured "
             "2024-01 --evacuated");
    }
};

} // namespace

TEST_F(BadInputTest, AbsurdQuantitiesInASheet) {
    refused("A1,DOT-4BA400,-47.7 lb,27 lb,2024-01", "water_capacity");
    refused("A1,DOT-4BA400,0 lb,27 lb,2024-01", "water_capacity");
    refused("A1,DOT-4BA400,1000000000000 lb,27 lb,2024-01", "water_capacity");
    refused("A1,DOT-4BA400,47.7 lb,-1 lb,2024-01", "tare");
    refused("A1,DOT-4BA400,47.7 lb,1000000000000 lb,2024-01", "tare");
    refused("A1,DOT-4BA400,47.7 lb,27 lb,2024-13", "manufactured");
    refused("A1,DOT-4BA400,47.7 lb,27 lb,2199-01", "manufactured");
    refused("A1,4B0A,47.7 lb,27 lb,2024-01", "specification");
    refused(std::string(10'000, 'A') + ",DOT-4BA400,47.7 lb,27 lb,2024-01", "serial");
    refused(std::string("A1\0B", 4) + ",DOT-4BA400,47.7 lb,27 lb,2024-01", "");
}

TEST_F(BadInputTest, ALineOf50MegabytesIsAnsweredAtOnce) {
    write("c.csv",
          "serial,specification,water_capacity,tare,manufactured\n" + std::string(50'000'000, 'x') + "\n");
    const Answer answer = run("import s cylinders c.csv");
    EXPECT_EQ(answer.code, 1);
    EXPECT_NE(answer.err.find("c.csv"), std::string::npos);
    EXPECT_LT(answer.err.size(), 2'000U);
}

TEST_F(BadInputTest, WeightsThatCannotBe) {
    registerOne();
    for (const char* gross : {"'-5 lb'", "'26 lb'", "'1000000000000 lb'", "'heavy'"}) {
        const Answer answer = run(fmt::format("checkin s A1 --gross {}", gross));
        EXPECT_EQ(answer.code, 1) << gross;
        EXPECT_FALSE(answer.err.empty());
    }
    EXPECT_EQ(run("checkin s A1 --gross '30 lb' --from system:NO/SUCH").code, 1);
    EXPECT_EQ(run("checkin s A1 --gross '30 lb' --from nonsense").code, 1);
    EXPECT_EQ(run("checkin s A1 --gross '30 lb' --from opening --to atmosphere").code, 1);
    EXPECT_EQ(run("checkin s NOSUCH --gross '30 lb'").code, 1);
    EXPECT_EQ(
        run("checkin s A1 --gross '30 lb' --from opening --refrigerant R-22 --occurred '2031-01-01 10:00'")
            .code,
        1);
    EXPECT_EQ(good("card s A1 --json").json()["history"].size(), 1U);
}

TEST_F(BadInputTest, TheNearestIsNamed) {
    registerOne();
    const Answer answer = run("card s A2");
    EXPECT_EQ(answer.code, 1);
    EXPECT_NE(answer.err.find("did you mean A1"), std::string::npos) << answer.err;
}

TEST_F(BadInputTest, AFormulaStaysAText) {
    registerOne();
    good("inspect s A1 sound --note '=cmd|/c calc!A1'");
    const auto card = good("card s A1 --json").json();
    EXPECT_NE(card["history"][0]["sentence"].get<std::string>().find("=cmd|"), std::string::npos);
    write("l.csv", "specification,water_capacity,tare,contents,note\n"
                   "DOT-4BA400,47.7 lb,27 lb,R-22,=cmd|' /C calc'!A0\n");
    const std::string out = good("limits --csv l.csv").out;
    EXPECT_EQ(out.find(",=cmd"), std::string::npos) << out;
    EXPECT_NE(out.find("'=cmd"), std::string::npos) << out;
}

TEST_F(BadInputTest, ExitCodesAreTheContract) {
    EXPECT_EQ(run("").code, 2);
    EXPECT_EQ(run("nosuchverb").code, 2);
    EXPECT_EQ(run("trace s").code, 2);
    EXPECT_EQ(run("import s nosuchkind x.csv").code, 2);
    EXPECT_EQ(run("import s cylinders nosuchfile.csv").code, 1);
    EXPECT_EQ(run("fleet nosuchshop").code, 1);
    EXPECT_EQ(run("init s").code, 1);
    write("text", "this is no shop, but long enough to look at: " + std::string(2'000, '.'));
    const Answer other = run("fleet text");
    EXPECT_NE(other.code, 0);
    EXPECT_FALSE(other.err.empty());
    // A shop whose pages were overwritten is damaged.
    std::string bytes = read(file("s"));
    for (std::size_t place = 4'096; place < bytes.size(); ++place) {
        bytes[place] = static_cast<char>(place * 31);
    }
    write("s", bytes);
    EXPECT_EQ(run("verify s").code, 3);
}

TEST_F(BadInputTest, TheSameSheetTwiceIsRefused) {
    write("c.csv",
          "serial,specification,water_capacity,tare,manufactured\nA1,DOT-4BA400,47.7 lb,27 lb,2024-01\n");
    good("import s cylinders c.csv");
    const Answer again = run("import s cylinders c.csv");
    EXPECT_EQ(again.code, 1);
    EXPECT_NE(again.err.find("c.csv:2: serial: "), std::string::npos) << again.err;
}

TEST_F(BadInputTest, AFullDiskIsNoFinishedAnswer) {
    registerOne();
    if (!std::filesystem::exists("/dev/full")) {
        GTEST_SKIP() << "no /dev/full here";
    }
    const Answer answer = run("fleet s --json > /dev/full 2> full.txt; exit $?");
    EXPECT_EQ(answer.code, 1);
    const std::string told = read(file("full.txt"));
    EXPECT_NE(told.find("could not be written"), std::string::npos) << told;
}

TEST_F(BadInputTest, BackupAndRestore) {
    registerOne();
    good("backup s copy");
    EXPECT_EQ(run("backup s copy").code, 1);
    good("condemn s A1 'dented'");
    good("restore copy s");
    EXPECT_EQ(good("card s A1 --json").json()["condition"], "serviceable");
    const std::string journal = good("journal s").out;
    EXPECT_EQ(std::count(journal.begin(), journal.end(), '\n'),
              good("verify s --json").json()["entries"].get<int>());
}
