// What the counter refuses or asks of a check-in, a sheet of movements may not slip past it. Liquid R-410A
// weighs at most about 1.3 times as much as water (handbook tables, from memory): 47.7 lb of water never hold
// 75 lb. The wrong gas in a system, and more taken out than was inside, are common practice to ask about; a
// day before the month that is stamped on the collar cannot be.
#include "core/exchange/importing.h"
#include "tests/shop/week_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class MovementChecksTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        write(SheetKind::cylinders, "serial,specification,water_capacity,tare,manufactured\n"
                                    "A1,DOT-4BA400,47.7 lb,27.0 lb,2024-01\n"
                                    "A2,DOT-4BW400,47.7 lb,28.1 lb,2023-06\n");
        write(SheetKind::systems, "site,tag,customer,refrigerant\nALDER,RTU-1,Alder,R-410A\n");
        write(SheetKind::movements, kHeader +
                                        "2026-09-01 10:00,bought,supplier:Estuary Supply,cylinder:A1,10 "
                                        "lb,R-410A,,,\n");
    }
    void write(SheetKind kind, const std::string& text) {
        auto begun = SheetImport::begin(*m_shop, kind, text);
        ASSERT_TRUE(begun);
        SheetImport import = std::move(begun).value();
        ASSERT_EQ(import.obstacle(), "");
        expectRecorded(import.write());
    }
    SheetImport movements(const std::string& rows) {
        auto begun = SheetImport::begin(*m_shop, SheetKind::movements, kHeader + rows);
        EXPECT_TRUE(begun);
        return std::move(begun).value();
    }
    /// The only row is in this state, and this is said of it; nothing where it is taken as it is.
    void expectRow(const std::string& row, RowState state, const std::string& said) {
        const SheetImport import = movements(row);
        const ImportRow& its = import.rows().at(0);
        EXPECT_EQ(its.state, state) << row;
        std::string all;
        for (const RowProblem& problem : its.problems) {
            all += problem.column + ": " + problem.error.text() + "\n";
        }
        EXPECT_NE(all.find(said), std::string::npos) << row << all;
    }

    inline static const std::string kHeader = "occurred,kind,from,to,mass,refrigerant,job,person,note\n";
};

} // namespace

TEST_F(MovementChecksTest, WhatCannotBeIsRefused) {
    expectRow("2026-09-02,recovered,system:ALDER/RTU-1,cylinder:A2,9000 lb,R-410A,,,\n", RowState::refused,
              "9000.0 lb does not go into A2");
    expectRow("2026-09-02,recovered,system:ALDER/RTU-1,cylinder:A1,70 lb,,,,\n", RowState::refused,
              "80.0 lb does not go into A1");
    expectRow("1999-05-01,recovered,system:ALDER/RTU-1,cylinder:A2,5 lb,,,,\n", RowState::refused,
              "A2 was made in 2023-06, after 1999-05-01");
    expectRow("2023-06-01,recovered,system:ALDER/RTU-1,cylinder:A2,5 lb,,,,\n", RowState::accepted, "");
}

TEST_F(MovementChecksTest, WhatIsWrongButMayHaveHappenedWaitsForAYes) {
    expectRow("2026-09-02,charged,cylinder:A1,system:ALDER/RTU-1,12 lb,,,,\n", RowState::confirm, "2.0 lb");
    expectRow("2026-08-31,charged,cylinder:A1,system:ALDER/RTU-1,2 lb,,,,\n", RowState::confirm, "mass: ");
    expectRow("2026-09-02,charged,cylinder:A1,system:ALDER/RTU-1,2 lb,,,,\n", RowState::accepted, "");
    expectRow("2026-09-02,recovered,system:ALDER/RTU-1,cylinder:A1,5 lb,R-290,,,\n", RowState::confirm,
              "from: ");
    expectRow("2026-09-02,bought,supplier:Estuary Supply,cylinder:A1,5 lb,R-22,,,\n", RowState::confirm,
              "to: A1: ");
    expectRow("2026-09-02,bought,supplier:Estuary Supply,cylinder:A2,45 lb,R-410A,,,\n", RowState::confirm,
              "to: A2: ");
}

TEST_F(MovementChecksTest, GasThatTheSystemIsNotForWaitsForAYes) {
    write(SheetKind::movements,
          kHeader + "2026-09-01 11:00,bought,supplier:Estuary Supply,cylinder:A2,10 lb,R-22,,,\n");
    const std::string row = "2026-09-02,charged,cylinder:A2,system:ALDER/RTU-1,5 lb,,,,\n";
    expectRow(row, RowState::confirm, "to: ");
    SheetImport import = movements(row);
    EXPECT_FALSE(import.write().ok());
    import.confirm(2, true);
    expectRecorded(import.write());
}

// What was done first counts first, whichever way the sheet is sorted; what the person leaves out moves
// nothing.
TEST_F(MovementChecksTest, RowsAreAskedInTheOrderInWhichTheyHappened) {
    SheetImport import = movements("2026-09-05 10:00,charged,cylinder:A2,system:ALDER/RTU-1,6 lb,,,,\n"
                                   "2026-09-04 10:00,decanted,cylinder:A1,cylinder:A2,7 lb,,,,\n"
                                   "2026-09-06 10:00,charged,cylinder:A1,system:ALDER/RTU-1,3 lb,,,,\n");
    EXPECT_EQ(import.obstacle(), "");
    import.leaveOut(3, true);
    EXPECT_EQ(import.rows().at(0).state, RowState::confirm) << "nothing was in A2 without the decant";
    EXPECT_EQ(import.rows().at(2).state, RowState::accepted);
    import.leaveOut(3, false);
    EXPECT_EQ(import.obstacle(), "");
    expectRecorded(import.write());
}

TEST_F(MovementChecksTest, ACylinderThatWasNotInTheShopThenWaitsForAYes) {
    expectRecorded(inspect(*m_shop, "A2", "lost", "not on the van"));
    SheetImport import = movements("2026-09-02,bought,supplier:Estuary Supply,cylinder:A2,5 lb,R-410A,,,\n" +
                                   m_shop->zone().localText(m_shop->now()) +
                                   ",bought,supplier:Estuary Supply,cylinder:A2,5 lb,R-410A,,,\n");
    EXPECT_EQ(import.rows().at(0).state, RowState::accepted) << "it was here then";
    EXPECT_EQ(import.rows().at(1).state, RowState::confirm);
    EXPECT_NE(import.rows().at(1).problems.at(0).error.wrong.find("A2 was lost then by the books"),
              std::string::npos);
}
