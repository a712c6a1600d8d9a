#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "core/exchange/cylinder_rows.h"
#include "core/exchange/movement_rows.h"
#include "core/exchange/people_rows.h"
#include "core/exchange/system_rows.h"

using namespace tarebook;

namespace {

Sheet sheetOf(const std::string& text) {
    auto sheet = readSheet(text);
    EXPECT_TRUE(sheet);
    return sheet ? std::move(sheet).value() : Sheet{};
}

std::string problemsOf(const std::vector<RowProblem>& problems) {
    std::string text;
    for (const RowProblem& problem : problems) {
        text += problem.column + ": " + problem.error.text() + "\n";
    }
    return text;
}

MovementRowsContext contextOf() {
    MovementRowsContext context;
    context.zone = Zone::load("America/Chicago").value();
    context.now = Instant::parse("2026-09-18T12:00:00-05:00").value();
    context.knowsCylinder = [](const std::string& serial) { return serial != "A999"; };
    return context;
}

MovementRow movementOf(const std::string& cells) {
    const Sheet sheet = sheetOf("occurred,kind,from,to,mass,refrigerant,job,person,note\n" + cells + "\n");
    const auto rows = readMovementRows(sheet, guessColumns(sheet, SheetKind::movements, {}), contextOf());
    EXPECT_TRUE(rows);
    return rows ? rows.value().at(0) : MovementRow{};
}

} // namespace

// The movements are those of the week at the counter, an invented shop.
TEST(MovementRows, ReadsTheWeek) {
    const auto row =
        movementOf("2026-09-14 16:30,Recovered,system:ST-ALDER/RTU-3,cylinder:A102,31.5 lb,R-410A,J-2231,,");
    ASSERT_TRUE(row.movement) << problemsOf(row.problems);
    EXPECT_EQ(row.movement->occurred.text(), "2026-09-14T21:30:00Z");
    EXPECT_TRUE(row.movement->timeWritten);
    EXPECT_EQ(row.movement->source.text(), "system:ST-ALDER/RTU-3");
    EXPECT_EQ(row.movement->kind, "recovered");
    EXPECT_EQ(row.movement->mass, Mass::parse("31.5 lb").value());
    const auto exact =
        movementOf("2026-09-15T16:30:00-05:00,decanted,cylinder:A103,cylinder:A107,3.2 lb,,,,");
    ASSERT_TRUE(exact.movement) << problemsOf(exact.problems);
    EXPECT_EQ(exact.movement->occurred.text(), "2026-09-15T21:30:00Z");
    const auto day = movementOf("9/16/2026,charged,cylinder:D001,system:BRIGHTWATER/STORE-2,6.5 lb,,,,");
    ASSERT_TRUE(day.movement) << problemsOf(day.problems);
    EXPECT_FALSE(day.movement->timeWritten);
    EXPECT_EQ(day.movement->occurred.text(), "2026-09-16T17:00:00Z");
}

TEST(MovementRows, RefusesWithTheReason) {
    const std::vector<std::pair<std::string, std::string>> wrong = {
        {"2026-09-14 16:30,recoverd,system:S/T,cylinder:A1,1 lb,,,,", "kind: 'recoverd' is no kind"},
        {"2026-09-14 16:30,recovered,cylinder:A1,system:S/T,1 lb,,,,", "from: what is recovered"},
        {"2026-09-14 16:30,charged,cylinder:A999,system:S/T,1 lb,,,,", "from: there is no cylinder 'A999'"},
        {"2026-09-14 16:30,decanted,cylinder:A1,cylinder:A1,1 lb,,,,",
         "to: the movement ends where it began"},
        {"2026-09-14 16:30,bought,supplier:North,cylinder:A1,1 lb,,,,",
         "refrigerant: supplier:North does not tell"},
        {"2026-09-14 16:30,charged,cylinder:A1,system:S/T,0 lb,,,,", "mass: a mass of zero"},
        {"2026-09-14 16:30,charged,cylinder:A1,system:S/T,-1 lb,,,,", "mass: '-1 lb' is negative"},
        {"2026-09-19 16:30,charged,cylinder:A1,system:S/T,1 lb,,,,",
         "occurred: 2026-09-19 16:30 is still to come"},
        {"2026-03-08 02:30,charged,cylinder:A1,system:S/T,1 lb,,,,",
         "occurred: the clocks of America/Chicago skip"},
        {"2026-02-30,charged,cylinder:A1,system:S/T,1 lb,,,,", "occurred: there is no day 30"},
        {",charged,cylinder:A1,system:S/T,1 lb,,,,", "occurred: the cell is blank"},
        {"2026-09-14,charged,A1,system:S/T,1 lb,,,,", "from: 'A1' is no account"},
    };
    for (const auto& [cells, reason] : wrong) {
        const auto row = movementOf(cells);
        EXPECT_FALSE(row.movement) << cells;
        EXPECT_NE(problemsOf(row.problems).find(reason), std::string::npos) << cells << "\n"
                                                                            << problemsOf(row.problems);
    }
    EXPECT_NE(problemsOf(movementOf("2026-09-14,recoverd,,,,,,,").problems).find("nearest is recovered"),
              std::string::npos);
}

TEST(PeopleRows, ReadsAndRefuses) {
    const Sheet sheet = sheetOf("Technician;Cert No;Expires\nRue Tamsin;608-U;10/31/2026\nBo Lindqvar;;\n"
                                "rue tamsin;x;\nKit;;2027-01-01\n;;\n;y;\n");
    const auto rows =
        readPeopleRows(sheet, guessColumns(sheet, SheetKind::people, {}), DateOrder::monthFirst);
    ASSERT_TRUE(rows);
    ASSERT_EQ(rows.value().size(), 5U) << "a row of blanks is none";
    EXPECT_EQ(rows.value()[0].person->certificateExpires->text(), "2026-10-31");
    EXPECT_TRUE(rows.value()[1].person);
    EXPECT_NE(problemsOf(rows.value()[2].problems).find("line 2"), std::string::npos);
    EXPECT_EQ(rows.value()[3].state(), RowState::refused);
    EXPECT_EQ(rows.value()[4].line, 7);
    EXPECT_FALSE(rows.value()[4].person);
}

TEST(SystemRows, ReadsAndRefuses) {
    const Sheet sheet = sheetOf("site,tag,customer,refrigerant,Full charge (lb),kind\n"
                                "HARBOR,DOCK-1,Ansel Harbor,R-22,60,commercial refrigeration\n"
                                "HARBOR,dock-1,,,,\nST/ALDER,GYM-1,,,18 lb,\nX,Y,,,0,\n");
    const auto rows = readSystemRows(sheet, guessColumns(sheet, SheetKind::systems, {}), nullptr);
    ASSERT_TRUE(rows);
    EXPECT_EQ(rows.value()[0].system->nominalCharge, Mass::parse("60 lb").value());
    EXPECT_NE(problemsOf(rows.value()[1].problems).find("line 2"), std::string::npos);
    EXPECT_NE(problemsOf(rows.value()[2].problems).find("stroke"), std::string::npos);
    EXPECT_NE(problemsOf(rows.value()[3].problems).find("zero"), std::string::npos);
}

// Whatever a sheet holds, a row is either a whole fact or has a reason, with what would be right.
TEST(SheetRows, AnySheetIsReadOrRefused) {
    EXPECT_TRUE(rc::check("rows are facts or have reasons", [] {
        static const std::vector<std::string> kCells = {"A1",
                                                        "a1",
                                                        "DOT-4BA400",
                                                        "DOT-39",
                                                        "47.7 lb",
                                                        "27",
                                                        "27,0",
                                                        "-3 lb",
                                                        "2021-03",
                                                        "13/24",
                                                        "=1+1",
                                                        "",
                                                        "\xC2\xA0",
                                                        "yes",
                                                        "own",
                                                        "system:S/T",
                                                        "cylinder:A1",
                                                        "charged",
                                                        "99999999999999 kg",
                                                        "R-22",
                                                        "9/14/2026",
                                                        "\"x\ny\"",
                                                        "\xEF\xBF\xBD"};
        std::string text =
            "serial;specification;WC;tare;made;retest;occurred;kind;from;to;mass;refrigerant;site;tag;name\n";
        for (auto rows = *rc::gen::inRange(1, 6); rows > 0; --rows) {
            const auto count = *rc::gen::element<std::size_t>(15, 15, 15, 3, 16);
            for (std::size_t cell = 0; cell < count; ++cell) {
                text += (cell == 0 ? "" : ";") + *rc::gen::elementOf(kCells);
            }
            text += '\n';
        }
        const auto read = readSheet(text);
        RC_ASSERT(read.ok());
        const Sheet& sheet = read.value();
        const auto check = [](const auto& rows, const auto& fact) {
            if (!rows) {
                RC_ASSERT(!rows.error().right.empty());
                return;
            }
            for (const auto& row : rows.value()) {
                RC_ASSERT(fact(row) == (row.state() != RowState::refused));
                for (const RowProblem& problem : row.problems) {
                    RC_ASSERT(!problem.column.empty());
                    RC_ASSERT(!problem.error.wrong.empty());
                    RC_ASSERT(!problem.error.right.empty());
                }
            }
        };
        static const MovementRowsContext kContext = contextOf();
        CylinderRowsContext cylinders;
        cylinders.today = Date::parse("2026-09-14").value();
        check(readCylinderRows(sheet, guessColumns(sheet, SheetKind::cylinders, {}), cylinders),
              [](const CylinderRow& row) { return row.nameplate.has_value(); });
        check(readMovementRows(sheet, guessColumns(sheet, SheetKind::movements, {}), kContext),
              [](const MovementRow& row) { return row.movement.has_value(); });
        check(readPeopleRows(sheet, guessColumns(sheet, SheetKind::people, {}), DateOrder::dayFirst),
              [](const PersonRow& row) { return row.person.has_value(); });
        check(readSystemRows(sheet, guessColumns(sheet, SheetKind::systems, {}), nullptr),
              [](const SystemRow& row) { return row.system.has_value(); });
    }));
}
