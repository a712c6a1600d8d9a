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
    /// A sheet of one row must be refused there, with what is wrong and what would be right, and nothing be
    /// written.
    void refusedRow(const std::string& kind, const std::string& header, const std::string& cells,
                    const std::string& column, const std::string& right) {
        const std::string before = good("verify s --json").json()["head"];
        write("c.csv", header + "\n" + cells + "\n");
        const Answer answer = run("import s " + kind + " c.csv");
        const std::string shown = cells.substr(0, 80) + "\n" + answer.err.substr(0, 400);
        EXPECT_EQ(answer.code, 1) << shown;
        const std::string line = answer.err.substr(0, answer.err.find('\n'));
        EXPECT_TRUE(line.starts_with("c.csv:2: " + column + ": ")) << shown;
        const std::size_t wrong = line.find("; ");
        EXPECT_NE(wrong, std::string::npos) << shown;
        EXPECT_NE(line.find(right, wrong), std::string::npos) << shown;
        EXPECT_EQ(good("verify s --json").json()["head"], before);
    }
    void refused(const std::string& cells, const std::string& column, const std::string& right) {
        refusedRow("cylinders", "serial,specification,water_capacity,tare,manufactured", cells, column,
                   right);
    }
    void refusedMovement(const std::string& cells, const std::string& column, const std::string& right) {
        refusedRow("movements", "occurred,kind,from,to,mass,refrigerant", cells, column, right);
    }
    void registerOne() {
        good("register s A1 --specification DOT-4BA400 --water-capacity '47.7 lb' --tare '27 lb' "
             "--manufactured "
             "2024-01 --evacuated");
    }
};

} // namespace

TEST_F(BadInputTest, AbsurdQuantitiesInASheet) {
    refused("A1,DOT-4BA400,-47.7 lb,27 lb,2024-01", "water_capacity", "above zero");
    refused("A1,DOT-4BA400,0 lb,27 lb,2024-01", "water_capacity", "as 47.7 lb");
    refused("A1,DOT-4BA400,1000000000000 lb,27 lb,2024-01", "water_capacity", "at most 3000 lb");
    refused("A1,DOT-4BA400,47.7 lb,-1 lb,2024-01", "tare", "zero or more");
    refused("A1,DOT-4BA400,47.7 lb,0 lb,2024-01", "tare", "read TW on the collar");
    refused("A1,DOT-4BA400,47.7 lb,,2024-01", "tare", "weigh the cylinder evacuated");
    refused("A1,DOT-4BA400,47.7 lb,1000000000000 lb,2024-01", "tare", "at most 12 before");
    refused("A1,DOT-4BA400,47.7 lb,999999999999 lb,2024-01", "tare", "check the number and its unit");
    refused("A1,DOT-4BA400,47.7 lb,3000 lb,2024-01", "tare", "check both numbers and their units");
    refused("A1,DOT-4BA400,47.7 lb,27 lb,2024-13", "manufactured", "as 2024-03");
    refused("A1,DOT-4BA400,47.7 lb,27 lb,2199-01", "manufactured", "stamped on the collar");
    refused("A1,DOT-4BA400,47.7 lb,27 lb,0000-00", "manufactured", "as 2024-03");
    refused("A1,4B0A,47.7 lb,27 lb,2024-01", "specification", "DOT-4BA400");
    refused(",DOT-4BA400,47.7 lb,27 lb,2024-01", "serial", "read the serial on the collar");
    refused(std::string(10'000, 'A') + ",DOT-4BA400,47.7 lb,27 lb,2024-01", "serial", "at most 40");
    refused(std::string("A1\0B", 4) + ",DOT-4BA400,47.7 lb,27 lb,2024-01", "serial", "type the cell again");
    refused("A1,DOT-4BA400,47.7 lb,27 lb", "manufactured", "it should have 5");
    refused("A1,DOT-4BA400,47.7 lb,27 lb,\"2024-01", "manufactured", "close it");
}

TEST_F(BadInputTest, AbsurdMovements) {
    registerOne();
    refusedMovement("2026-09-01,bought,supplier:X,cylinder:A1,-5 lb,R-22", "mass", "zero or more");
    refusedMovement("2026-09-01,bought,supplier:X,cylinder:A1,0 lb,R-22", "mass", "leave the row out");
    refusedMovement("2026-09-01,bought,supplier:X,cylinder:A1,1000000000000 lb,R-22", "mass",
                    "at most 12 before");
    refusedMovement("2026-02-30,bought,supplier:X,cylinder:A1,5 lb,R-22", "occurred", "2026-");
    refusedMovement("2031-01-01,bought,supplier:X,cylinder:A1,5 lb,R-22", "occurred", "when it happened");
    refusedMovement("2026-09-01,stolen,supplier:X,cylinder:A1,5 lb,R-22", "kind", "bought");
    refusedMovement("2026-09-01,bought,supplier:X,cylinder:A2,5 lb,R-22", "to", "register it first");
    refusedMovement("2026-09-01,bought,somewhere,cylinder:A1,5 lb,R-22", "from", "system:SITE/TAG");
    refusedMovement("2026-09-01,decanted,cylinder:A1,cylinder:A1,5 lb,R-22", "to", "another account");
    refusedMovement("2026-09-01,charged,supplier:X,cylinder:A1,5 lb,R-22", "from", "it goes from");
    refusedMovement("2026-09-01,bought,supplier:X,cylinder:A1,5 lb,", "refrigerant", "R-410A");
    refusedMovement("2026-09-01,bought,supplier:X,cylinder:A1,5 lb,R-4I0A", "refrigerant", "R-410A");
    refusedMovement(std::string("2026-09-01,bought,supplier:X,cylinder:A1,5 lb,R") + '\0', "refrigerant",
                    "type the cell again");
    refusedMovement("2026-09-01,bought,supplier:" + std::string(10'000, 'X') + ",cylinder:A1,5 lb,R-22",
                    "from", "");
}

TEST_F(BadInputTest, AbsurdPeopleAndSystems) {
    refusedRow("people", "name,certificate_expires", "JULES,2026-02-30", "certificate_expires", "2026-");
    refusedRow("people", "name,certificate_expires", ",2026-10-31", "name", "");
    refusedRow("people", "name,certificate", std::string(10'000, 'J') + ",II", "name", "at most");
    refusedRow("systems", "site,tag,refrigerant,nominal_charge", "A,B,R-22,-4 lb", "nominal_charge",
               "zero or more");
    refusedRow("systems", "site,tag,refrigerant,nominal_charge", "A,B,R-99,4 lb", "refrigerant", "");
    refusedRow("systems", "site,tag,refrigerant,nominal_charge", ",B,R-22,4 lb", "site", "");
}

TEST_F(BadInputTest, AbsurdRowsOfACalculator) {
    write("l.csv", "specification,water_capacity,tare,contents\n"
                   "DOT-4BA400,-1 lb,27 lb,R-22\n"
                   "DOT-4BA400,47.7 lb,1000000000000 lb,R-22\n"
                   "DOT-4BA400,47.7 lb,27 lb,R-22:-1\n"
                   "DOT-4BA400,47.7 lb,27 lb,R-22\n");
    const Answer answer = run("limits --csv l.csv");
    EXPECT_EQ(answer.code, 1);
    EXPECT_NE(answer.err.find("l.csv:2: water_capacity: '-1 lb' is negative; "), std::string::npos)
        << answer.err;
    EXPECT_NE(answer.err.find("l.csv:3: tare: "), std::string::npos) << answer.err;
    EXPECT_NE(answer.err.find("l.csv:4: contents: "), std::string::npos) << answer.err;
    EXPECT_NE(answer.out.find("DOT-4BA400,47.7 lb,27 lb,R-22,"), std::string::npos) << answer.out;
    write("d.csv", "specification,manufactured,last_test,mark_suffix,service,filled_on,on\n"
                   "DOT-4BA400,2024-01,,,recovery,,2026-02-30\n"
                   "DOT-4BA400,2024-01,,,hot,,2026-02-28\n");
    const Answer due = run("due --csv d.csv");
    EXPECT_EQ(due.code, 1);
    EXPECT_NE(due.err.find("d.csv:2: on: "), std::string::npos) << due.err;
    EXPECT_NE(due.err.find("d.csv:3: service: "), std::string::npos) << due.err;
    write("t.csv", "contents,temperature\nR-22,-500 C\nR-22,25\nR-22,1e9 C\n");
    const Answer hot = run("saturation --csv t.csv");
    EXPECT_EQ(hot.code, 1);
    for (const char* where : {"t.csv:2: temperature: ", "t.csv:3: temperature: ", "t.csv:4: temperature: "}) {
        EXPECT_NE(hot.err.find(where), std::string::npos) << hot.err;
    }
}

TEST_F(BadInputTest, ALineOf50MegabytesIsAnsweredAtOnce) {
    write("c.csv",
          "serial,specification,water_capacity,tare,manufactured\n" + std::string(50'000'000, 'x') + "\n");
    const Answer answer = run("import s cylinders c.csv");
    EXPECT_EQ(answer.code, 1);
    EXPECT_NE(answer.err.find("c.csv:2: "), std::string::npos) << answer.err;
    EXPECT_NE(answer.err.find("a cell holds at most 65536"), std::string::npos) << answer.err;
    EXPECT_LT(answer.err.size(), 2'000U);
    EXPECT_EQ(good("fleet s --json").json().size(), 0U);
    write("h.csv", std::string(50'000'000, 'x') + "\nA1\n"); // the line that names the columns
    const Answer header = run("import s cylinders h.csv");
    EXPECT_EQ(header.code, 1);
    EXPECT_NE(header.err.find("h.csv: line 1, which should name the columns"), std::string::npos)
        << header.err.substr(0, 400);
    EXPECT_EQ(run("limits --csv h.csv").code, 1);
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

TEST_F(BadInputTest, TheSameSheetTwiceIsRefused) {
    write("c.csv",
          "serial,specification,water_capacity,tare,manufactured\nA1,DOT-4BA400,47.7 lb,27 lb,2024-01\n");
    good("import s cylinders c.csv");
    const Answer again = run("import s cylinders c.csv");
    EXPECT_EQ(again.code, 1);
    EXPECT_NE(again.err.find("c.csv:2: serial: "), std::string::npos) << again.err;
}

TEST_F(BadInputTest, TheSameMovementsTwiceWaitForAYes) {
    registerOne();
    write("m.csv", "occurred,kind,from,to,mass,refrigerant\n"
                   "2026-09-01 10:00,bought,supplier:Estuary Supply,cylinder:A1,20 lb,R-22\n");
    const Answer early = run("import s movements m.csv"); // it is on the register from today on
    EXPECT_EQ(early.code, 1);
    EXPECT_NE(early.err.find("m.csv:2: occurred: A1 came to the shop on "), std::string::npos) << early.err;
    good("import s movements m.csv --confirm 2");
    const std::string before = good("verify s --json").json()["head"];
    const Answer again = run("import s movements m.csv");
    EXPECT_EQ(again.code, 1);
    EXPECT_NE(again.err.find("m.csv:2: row: entry "), std::string::npos) << again.err;
    EXPECT_NE(again.err.find("of the books is the same already"), std::string::npos) << again.err;
    EXPECT_NE(again.err.find("say --confirm 2 if it is so"), std::string::npos) << again.err;
    EXPECT_EQ(good("verify s --json").json()["head"], before);
    EXPECT_NEAR(good("card s A1 --json").json()["net_kg"].get<double>(), 20 * 0.45359237, 1e-6);
    good("import s movements m.csv --confirm 2");
    EXPECT_NEAR(good("card s A1 --json").json()["net_kg"].get<double>(), 40 * 0.45359237, 1e-6);
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
    good("restore copy s --lose 1");
    EXPECT_EQ(good("card s A1 --json").json()["condition"], "serviceable");
    const std::string journal = good("journal s").out;
    EXPECT_EQ(std::count(journal.begin(), journal.end(), '\n'),
              good("verify s --json").json()["entries"].get<int>());
}

// ISO/IEC 6429: ESC, and U+009B in its place, begin commands to a terminal. Neither is entered, and what is
// in a sheet or in an argument is printed as a picture of it (Unicode, block Control Pictures).
TEST_F(BadInputTest, NoTextCommandsATerminal) {
    const Answer party = run("party s reclaimer 'Cape' --address 'Foundry Way\x1b[2J'");
    EXPECT_NE(party.code, 0);
    refusedRow("people", "name,certificate", "JULES,II\x1b[31m", "certificate", "type the cell again");
    refusedRow("people", "name,certificate",
               "JULES,II\xC2\x9B"
               "31m",
               "certificate", "type the cell again");
    write("q.csv", "contents,temperature,note\nR-22,25 C,see\x1b]0;x\x07\xC2\x9B"
                   "2J\n");
    const Answer answer = good("saturation --csv q.csv");
    EXPECT_NE(answer.out.find("see\xE2\x90\x9B]0;x\xE2\x90\x87\xEF\xBF\xBD"
                              "2J"),
              std::string::npos)
        << answer.out;
    const Answer wrong = run("saturation --csv 'no\x1b[31m.csv'");
    EXPECT_NE(wrong.code, 0);
    for (const std::string& printed : {party.err, answer.out, wrong.err}) {
        EXPECT_EQ(printed.find('\x1b'), std::string::npos) << printed;
    }
}
