// The import of sheets through the front desk: what a row names, in which order, and what is left out.
#include <algorithm>

#include "core/exchange/importing.h"
#include "tests/shop/week_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class ImportingTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        SheetImport import =
            begin(SheetKind::cylinders,
                  "serial,specification,water_capacity,tare,manufactured\n"
                  "A1,DOT-4BA400,47.7 lb,27.0 lb,2024-01\nA2,DOT-4BW400,47.7 lb,28.1 lb,2023-06\n");
        expectRecorded(import.write());
    }
    SheetImport begin(SheetKind kind, const std::string& text) {
        auto begun = SheetImport::begin(*m_shop, kind, text);
        EXPECT_TRUE(begun);
        return std::move(begun).value();
    }
    SheetImport movements(const std::string& rows) {
        return begin(SheetKind::movements, "occurred,kind,from,to,mass,refrigerant,job,person,note\n" + rows);
    }
    [[nodiscard]] std::string contentOf(const std::string& serial) {
        return contentName(card(*m_shop, serial).value().state.content);
    }
    [[nodiscard]] static bool adds(const SheetImport& import, const std::string& what) {
        return std::find(import.added().begin(), import.added().end(), what) != import.added().end();
    }
};

constexpr const char* kUnnamed = "2026-09-05 10:00,recovered,system:OLD/Y,cylinder:A2,1 lb,,,,\n";
constexpr const char* kNamed = "2026-09-02 10:00,recovered,system:OLD/Y,cylinder:A1,10 lb,r410a,,,\n";

} // namespace

TEST_F(ImportingTest, ALaterLineMayNameTheRefrigerantOfASystem) {
    for (const std::string& rows : {std::string(kUnnamed) + kNamed, std::string(kNamed) + kUnnamed}) {
        EXPECT_EQ(movements(rows).obstacle(), "") << rows;
    }
    SheetImport import = movements(std::string(kUnnamed) + kNamed);
    expectRecorded(import.write());
    EXPECT_EQ(contentOf("A2"), "R-410A");
    EXPECT_EQ(systemNamed(*m_shop, "OLD/Y")->refrigerant, "R-410A");
}

TEST_F(ImportingTest, ASystemFirstMetWhenChargedTakesWhatIsNamedWhenRecovered) {
    SheetImport import =
        movements("2026-09-01 10:00,bought,supplier:Estuary Supply,cylinder:A1,10 lb,R-22,,,\n"
                  "2026-09-02 10:00,charged,cylinder:A1,system:NEW/X,2 lb,,,,\n"
                  "2026-09-03 10:00,recovered,system:NEW/X,cylinder:A2,1 lb,R-22,,,\n");
    expectRecorded(import.write());
    EXPECT_EQ(systemNamed(*m_shop, "NEW/X")->refrigerant, "R-22");
}

TEST_F(ImportingTest, NobodyGuessesWhatNoRowNames) {
    SheetImport import = movements(kUnnamed);
    EXPECT_EQ(import.count(RowState::refused), 1);
    EXPECT_NE(import.rows().at(0).problems.at(0).error.text().find("OLD/Y"), std::string::npos);
    EXPECT_FALSE(import.write().ok());
    EXPECT_TRUE(systems(*m_shop).empty());
}

TEST_F(ImportingTest, WhatALeftOutRowNamesIsNotEntered) {
    const auto before = m_shop->store().headDigest();
    SheetImport import =
        movements(std::string(kNamed) +
                  "2026-09-04 10:00,recovered,system:GHOST/Z,cylinder:A2,1 lb,R-22,J-9,NO BODY,\n");
    EXPECT_TRUE(adds(import, "person NO BODY"));
    import.leaveOut(3, true);
    EXPECT_EQ(import.added(), std::vector<std::string>{"system OLD/Y"});
    EXPECT_EQ(m_shop->store().headDigest(), before);
    import.leaveOut(3, false);
    EXPECT_TRUE(adds(import, "job J-9"));
    import.leaveOut(3, true);
    expectRecorded(import.write());
    EXPECT_TRUE(people(*m_shop).empty());
    EXPECT_FALSE(systemNamed(*m_shop, "GHOST/Z"));
    EXPECT_EQ(contentOf("A1"), "R-410A");
}

TEST_F(ImportingTest, ALeftOutRowDoesNotNameForOthers) {
    SheetImport import = movements(std::string(kNamed) + kUnnamed);
    import.leaveOut(2, true);
    EXPECT_EQ(import.count(RowState::refused), 1);
    EXPECT_NE(import.obstacle(), "");
    import.leaveOut(2, false);
    EXPECT_EQ(import.obstacle(), "");
}

// The same sheet once more would double the gas: each row waits for a yes.
TEST_F(ImportingTest, ARowThatTheBooksHaveAlreadyWaitsForAYes) {
    const std::string rows = std::string(kNamed) +
                             "2026-09-06,recovered,system:OLD/Y,cylinder:A1,2 lb,,,,\n" +
                             "2026-09-06,recovered,system:OLD/Y,cylinder:A1,2 lb,,,,\n";
    SheetImport first = movements(rows);
    EXPECT_EQ(first.obstacle(), ""); // twice within a sheet is the person's own doing
    expectRecorded(first.write());
    const auto before = m_shop->store().headDigest();

    SheetImport again = movements(rows + "2026-09-06,recovered,system:OLD/Y,cylinder:A1,2 lb,,,,\n" +
                                  "2026-09-07,recovered,system:OLD/Y,cylinder:A1,2 lb,,,,\n" +
                                  "2026-09-06,recovered,system:OLD/Y,cylinder:A1,2.1 lb,,,,\n");
    // Three rows for three entries; the fourth of that kind, another day and another mass are new.
    EXPECT_EQ(again.count(RowState::confirm), 3);
    EXPECT_EQ(again.count(RowState::accepted), 3);
    const Error& error = again.rows().at(0).problems.at(0).error;
    EXPECT_NE(
        error.wrong.find("of the books is the same already: 10.0 lb from system:OLD/Y to cylinder:A1 on "
                         "2026-09-02"),
        std::string::npos)
        << error.wrong;
    EXPECT_NE(error.right.find("leave the row out"), std::string::npos);
    EXPECT_FALSE(again.write().ok());
    EXPECT_EQ(m_shop->store().headDigest(), before);
    for (const int line : {2, 3, 4}) {
        again.leaveOut(line, true);
    }
    EXPECT_EQ(again.obstacle(), "");
    again.leaveOut(4, false);
    EXPECT_NE(again.obstacle(), "");
    again.confirm(4, true);
    EXPECT_EQ(again.obstacle(), "");
}

TEST_F(ImportingTest, AReversedEntryIsNoRepetition) {
    SheetImport first = movements(kNamed);
    const Recorded recorded = first.write();
    expectRecorded(recorded);
    expectRecorded(m_shop->reverse(recorded.entries.back(), "the wrong sheet"));
    EXPECT_EQ(movements(kNamed).obstacle(), "");
}

// 40 CFR 82.154(d): recovered gas is its owner's; a sheet that does not name the customer takes none away.
TEST_F(ImportingTest, ASheetWithoutCustomersLeavesThem) {
    SheetImport first =
        begin(SheetKind::systems, "site,tag,customer,refrigerant,kind,address\n"
                                  "HARBOR,DOCK-1,Ansel Harbor,R-22,commercial refrigeration,\n"
                                  "HARBOR,DOCK-2,,R-22,,Quay 4\n");
    expectRecorded(first.write());
    EXPECT_EQ(systemNamed(*m_shop, "HARBOR/DOCK-2")->customer, "Ansel Harbor");
    EXPECT_EQ(systemNamed(*m_shop, "HARBOR/DOCK-1")->address, "Quay 4");
    SheetImport second = begin(SheetKind::systems, "site,tag,refrigerant\nHARBOR,CHILLER-9,R-22\n"
                                                   "HARBOR,DOCK-1,\n");
    EXPECT_EQ(second.count(RowState::accepted), 2);
    expectRecorded(second.write());
    const auto dock = systemNamed(*m_shop, "HARBOR/DOCK-1");
    EXPECT_EQ(dock->customer, "Ansel Harbor");
    EXPECT_EQ(dock->refrigerant, "R-22");
    EXPECT_EQ(dock->equipment, "commercial refrigeration");
    EXPECT_EQ(systemNamed(*m_shop, "HARBOR/CHILLER-9")->customer, "Ansel Harbor");
    expectRecorded(
        movements("2026-09-02 10:00,recovered,system:HARBOR/CHILLER-9,cylinder:A1,4 lb,R-22,,,\n").write());
    EXPECT_EQ(card(*m_shop, "A1").value().state.content.byOwner().begin()->first, "Ansel Harbor");
}

TEST_F(ImportingTest, ASiteThatChangesHandsWaitsForAYes) {
    expectRecorded(
        begin(SheetKind::systems, "site,tag,customer,refrigerant\nHARBOR,DOCK-1,Ansel Harbor,R-22\n")
            .write());
    SheetImport other = begin(SheetKind::systems, "site,tag,customer,refrigerant\n"
                                                  "HARBOR,DOCK-1,Pier Foods,R-22\nHARBOR,DOCK-2,,R-22\n");
    EXPECT_EQ(other.count(RowState::confirm), 1);
    EXPECT_NE(other.obstacle(), "");
    other.leaveOut(2, true);
    expectRecorded(other.write());
    EXPECT_EQ(systemNamed(*m_shop, "HARBOR/DOCK-2")->customer, "Ansel Harbor") << "its row was left out";
}

TEST_F(ImportingTest, ASheetOfPeopleKeepsWhatItDoesNotSay) {
    expectRecorded(begin(SheetKind::people, "name,certificate,certificate_expires,role\n"
                                            "FINN BECK,Type II 71107,2027-03-31,storekeeper\n")
                       .write());
    expectRecorded(begin(SheetKind::people, "name,certificate\nFINN BECK,Universal 9\n").write());
    const auto all = people(*m_shop);
    ASSERT_EQ(all.size(), 1U);
    EXPECT_EQ(all[0].role, "storekeeper");
    EXPECT_EQ(all[0].certificate, "Universal 9");
    EXPECT_EQ(all[0].certificateExpires->text(), "2027-03-31");
}
