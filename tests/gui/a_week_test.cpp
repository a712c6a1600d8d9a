// The whole week at the counter, played through the window from the first import to the auditor, in one go:
// this part to Wednesday, tests/gui/a_week_later_test.cpp from Thursday on. Sources of the figures:
// tests/shop/a_week_test.cpp.
#include "tests/gui/support/a_week.h"

#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTableWidget>

#include "ui/finding_view.h"
#include "ui/import_dialog.h"
#include "ui/kit.h"
#include "ui/questions.h"

namespace tarebook::tests {

void AWeekInTheWindow::SetUp() {
    QApplication::setAttribute(Qt::AA_DontUseNativeDialogs);
    WeekWindow::SetUp();
}

void AWeekInTheWindow::pressInFront(Qt::Key key, Qt::KeyboardModifiers with) {
    window().activateWindow();
    QApplication::setActiveWindow(&window());
    ASSERT_TRUE(QTest::qWaitForWindowActive(&window()));
    QTest::keyClick(&window(), key, with);
}

void AWeekInTheWindow::importFile(const char* name, int kind, const std::function<void()>& act) {
    bool asked = false;
    bool opened = false;
    whenOpen(*m_program, "importDialog", opened, [&] {
        auto* dialog = qobject_cast<QDialog*>(QApplication::activeModalWidget());
        if (kind != 0) { // the list begins with cylinders
            pick(the<QComboBox>("importKind"), kind);
        }
        whenAFileIsAsked(*m_program, file(name), asked);
        click("importChoose");
        act();
        if (dialog->isVisible()) {
            click("importCancel");
        }
    });
    pressInFront(Qt::Key_I, Qt::ControlModifier);
    EXPECT_TRUE(opened) << name;
    EXPECT_TRUE(asked) << name;
}

void AWeekInTheWindow::importTheSeven() {
    const auto sheet = [](const char* third, const char* fifth) {
        return std::string("serial,specification,water_capacity,tare,manufactured\n"
                           "A101,DOT-4BA400,47.7 lb,27.0 lb,2021-03\n"
                           "A102,DOT-4BW400,47.7 lb,28.1 lb,2023-06\n"
                           "A103,") +
               third +
               ",26.2 lb,17.0 lb,2024-10\n"
               "A104,DOT-4BA350,47.7 lb,26.0 lb,2022-05\n"
               "A105,DOT-4BA400,47.7 lb," +
               fifth +
               ",2022-10\n"
               "A107,DOT-4BA400,26.2 lb,16.8 lb,2025-02\n"
               "D001,DOT-39,26.2 lb,6.1 lb,2026-05\n";
    };
    const Sequence nothing = shop().store().headSeq();
    write("seven.csv", sheet("DOT-4BX400", "279 lb"));
    importFile("seven.csv", 0, [this] {
        ASSERT_EQ(the<QTableWidget>("importRows").rowCount(), 7);
        EXPECT_EQ(cell("importRows", 0, 1), "4") << "the third cylinder, below the heading";
        EXPECT_EQ(cell("importRows", 0, 2), "refused");
        EXPECT_NE(cell("importRows", 0, 3).find("DOT-4BA"), std::string::npos) << "what would be right";
        EXPECT_EQ(cell("importRows", 1, 1), "6");
        EXPECT_EQ(cell("importRows", 1, 2), "is it so?");
        EXPECT_NE(cell("importRows", 1, 3).find("279"), std::string::npos) << cell("importRows", 1, 3);
        EXPECT_FALSE(the<QPushButton>("importWrite").isEnabled());
        // Confirming the one does not let the other through.
        auto& rows = the<QTableWidget>("importRows");
        rows.setFocus();
        rows.setCurrentCell(1, 0);
        QTest::keyClick(&rows, Qt::Key_Space);
        EXPECT_EQ(rows.item(1, 0)->checkState(), Qt::Checked);
        EXPECT_FALSE(the<QPushButton>("importWrite").isEnabled());
    });
    // Nor is the tare let through unseen where the mark is mended; once it is confirmed it could be written.
    write("seven.csv", sheet("DOT-4BA400", "279 lb"));
    importFile("seven.csv", 0, [this] {
        auto& rows = the<QTableWidget>("importRows");
        EXPECT_EQ(cell("importRows", 0, 2), "is it so?");
        EXPECT_EQ(cell("importRows", 1, 2), "good");
        EXPECT_NE(text("importObstacle").find("Not yet"), std::string::npos) << text("importObstacle");
        EXPECT_FALSE(the<QPushButton>("importWrite").isEnabled());
        rows.setFocus();
        rows.setCurrentCell(0, 0);
        QTest::keyClick(&rows, Qt::Key_Space);
        EXPECT_TRUE(the<QPushButton>("importWrite").isEnabled()) << text("importObstacle");
    });
    EXPECT_EQ(shop().store().fleetCount(), 0);
    EXPECT_EQ(shop().store().headSeq(), nothing) << "not a word of it is in the journal";
    // It is not so: mended in the spreadsheet too, and read again.
    write("seven.csv", sheet("DOT-4BA400", "27.9 lb"));
    importFile("seven.csv", 0, [this] { click("importWrite"); });
    ASSERT_EQ(shop().store().fleetCount(), 7);
    EXPECT_EQ(card(shop(), "A105").value().state.plate.tare.poundsText(), "27.9 lb");
    // What was inside when the books began.
    write("before.csv", "occurred,kind,from,to,mass,refrigerant\n"
                        "2026-09-01 10:00,recovered,system:HARBOR/DOCK-1,cylinder:A103,14.6 lb,R-22\n"
                        "2026-09-02 10:00,recovered,system:BRIGHTWATER/STORE-2,cylinder:A105,20.0 lb,R-410A\n"
                        "2026-09-03 10:00,bought,supplier:Estuary Supply,cylinder:D001,25.0 lb,R-410A\n");
    importFile("before.csv", 3, [this] {
        ASSERT_TRUE(the<QPushButton>("importWrite").isEnabled()) << text("importObstacle");
        click("importWrite");
    });
    EXPECT_EQ(net("A103"), "14.6 lb");
    EXPECT_EQ(net("A105"), "20.0 lb");
    EXPECT_EQ(net("D001"), "25.0 lb");
}

void AWeekInTheWindow::planAndCheckOut() {
    // 2. Today.
    window().openPlace(QStringLiteral("today"));
    ASSERT_EQ(the<FindingView>("alerts").count(), 2);
    EXPECT_TRUE(said("alerts", "A101: Retest was due 2026-03: not filled or topped up since 2026-04-01"))
        << finding("alerts", "retest.overdue");
    EXPECT_TRUE(said("alerts", "JULES ARBOR: Certificate runs out on 2026-10-31, in 47 days"))
        << finding("alerts", "person.certificate"); // 16 of September, 31 of October
    window().openPlace(QStringLiteral("fleet"));
    for (const auto& [serial, due] :
         {std::pair{"A101", "2026-03"}, {"A102", "2028-06"}, {"A104", "2027-05"}, {"A105", "2027-10"}}) {
        scan(serial);
        EXPECT_EQ(text("cardDue"), due) << serial;
    }
    // 3. The plan.
    window().openPlace(QStringLiteral("jobs"));
    choose("outSystem", "ST-ALDER/RTU-3");
    type("outExpected", "32 lb");
    EXPECT_EQ(cell("outProposal", 0, 0), "A102");
    EXPECT_EQ(cell("outProposal", 0, 1), "40.5 lb");
    EXPECT_EQ(cell("outProposal", 0, 2), "68.6 lb");
    const auto why = [this](const char* serial) {
        return cell("outProposal", rowOf("outProposal", serial), 3);
    };
    EXPECT_NE(why("A101").find("etest"), std::string::npos) << why("A101");
    EXPECT_NE(why("A104").find("437.5"), std::string::npos) << why("A104");
    // The program's own mixture model is within 0.1 psi of the table's 484.2.
    EXPECT_TRUE(why("A104").find("484.1") != std::string::npos ||
                why("A104").find("484.2") != std::string::npos ||
                why("A104").find("484.3") != std::string::npos)
        << why("A104");
    EXPECT_NE(why("A103").find("R-22"), std::string::npos) << why("A103");
    EXPECT_NE(why("A105").find("Brightwater Grocers"), std::string::npos) << why("A105");
    EXPECT_NE(why("A105").find("20.5 lb"), std::string::npos) << why("A105");
    EXPECT_NE(why("D001").find("never refilled"), std::string::npos) << why("D001");
    EXPECT_NE(why("A107").find("22.2 lb of room is too little"), std::string::npos) << why("A107");
    // 4. Out, and not a second time.
    choose("outPerson", "MORGAN VALE");
    type("outJob", "J-2231");
    click("outTake");
    click("outRecord");
    EXPECT_EQ(card(shop(), "A102").value().state.holder, "MORGAN VALE");
    scan("A102");
    choose("outPerson", "JULES ARBOR");
    EXPECT_NE(finding("outFindings", "plan.out").find("MORGAN VALE"), std::string::npos);
    EXPECT_FALSE(the<QPushButton>("outRecord").isEnabled());
    click("outClear");
    // 5. In.
    setTime("2026-09-14T20:00:00Z");
    checkIn("A102", 0, "ST-ALDER/RTU-3", "28.1 lb", "59.6 lb");
    m_monday = shop().store().headSeq() - 1; // the recovery, before the return
    EXPECT_EQ(text("inNet"), "31.5 lb");
    EXPECT_EQ(text("inRoom"), "9.0 lb");
    EXPECT_EQ(text("inStop"), "68.6 lb");
    // 31.5 of 34 lb.
    EXPECT_TRUE(the<QLabel>("inShare").isVisible());
    EXPECT_NE(text("inShare").find("ST-ALDER/RTU-3 that day: 31.5 lb, 92.6 %"), std::string::npos)
        << text("inShare");
    EXPECT_NE(text("inShare").find("within the ordinary"), std::string::npos) << text("inShare");
}

void AWeekInTheWindow::tuesday() {
    setTime("2026-09-15T14:00:00Z");
    // 6. Mixed by accident.
    checkIn("A105", 0, "HARBOR/DOCK-1", "47.9 lb", "51.9 lb");
    EXPECT_NE(finding("inFindings", "contents.mixed"), "");
    EXPECT_NE(text("inComposition").find("R-22 16.7 %"), std::string::npos) << text("inComposition");
    EXPECT_NE(text("inComposition").find("20.0 lb of Brightwater Grocers"), std::string::npos);
    EXPECT_NE(text("inComposition").find("4.0 lb of Ansel Harbor Cold Storage"), std::string::npos);
    // Limit, pressure and class are the mixture's: volumes added, 1 / (1/6 / 1.194 + 5/6 / 1.062) = 1.082;
    // 0.8 x 47.7 lb x 1.082 = 41.29 lb, less 24.0 inside.
    EXPECT_EQ(text("inRoom"), "17.2 lb");
    EXPECT_EQ(text("inStop"), "do not fill") << "what is mixed by accident is not topped up";
    window().openPlace(QStringLiteral("fleet"));
    scan("A105");
    EXPECT_NE(text("cardWorking").find("R-22:0.166667+R-410A:0.833333"), std::string::npos)
        << text("cardWorking");
    // Between R-22 (300.6 psig) and R-410A (484.2 psig) at 55 degC, against 400 x 5/4 (49 CFR
    // 173.301(a)(8)).
    EXPECT_NE(
        text("cardWorking").find("458.1 psig at 55 °C against 1.25 x the marked 400.0 psig = 500.0 psig"),
        std::string::npos)
        << text("cardWorking");
    EXPECT_FALSE(the<QLabel>("inShare").isVisible()) << "of the cylinder before";
    // 7. Overfilled: 28.0 against the lawful 27.5 and the practice of 25.0.
    checkIn("A103", 0, "HARBOR/DOCK-1", "31.6 lb", "45.0 lb");
    EXPECT_EQ(text("inNet"), "28.0 lb");
    const std::string over = finding("inFindings", "fill.overfilled");
    for (const char* figure :
         {"27.5 lb", "0.5 lb", "= 25.0", "at least 3.0 lb", "not to be moved on the road", "A107"}) {
        EXPECT_NE(over.find(figure), std::string::npos) << figure << " in: " << over;
    }
    // 8. The remedy, from Today.
    window().openPlace(QStringLiteral("today"));
    EXPECT_NE(finding("alerts", "fill.overfilled").find("A107"), std::string::npos)
        << finding("alerts", "fill.overfilled");
    click("act:cylinder:A103");
    EXPECT_EQ(utf8(the<QLineEdit>("decantTo").text()), "A107");
    type("decantMass", "3.2 lb");
    click("decantRecord");
    EXPECT_EQ(net("A103"), "24.8 lb");
    EXPECT_EQ(net("A107"), "3.2 lb");
    EXPECT_TRUE(card(shop(), "A103").value().findings.empty());
    window().openPlace(QStringLiteral("today"));
    EXPECT_EQ(finding("alerts", "fill.overfilled"), "") << "closed by itself";
    // 9. Filled after its retest was due.
    checkIn("A101", 0, "BRIGHTWATER/STORE-2", "27.0 lb", "39.0 lb");
    const std::string late = finding("inFindings", "retest.filled-late");
    for (const char* part :
         {"may not be offered for transport", "Empty it into a lawful cylinder", "tested"}) {
        EXPECT_NE(late.find(part), std::string::npos) << part << " in: " << late;
    }
    EXPECT_EQ(net("A101"), "12.0 lb");
    EXPECT_FALSE(card(shop(), "A101").value().shipAllowed);
}

void AWeekInTheWindow::chargeStore2() {
    // 10. New gas into STORE-2: told before it is entered, 6.5 of 22 lb are 29.55 % in 365 days.
    emit window().desk().errand(Errand::checkIn, QStringLiteral("D001"));
    pick(the<QComboBox>("inWhat"), 1);
    choose("inSystem", "BRIGHTWATER/STORE-2");
    type("inBefore", "31.1 lb");
    type("inAfter", "24.6 lb");
    EXPECT_NE(finding("inFindings", "leak.rate").find("leaks 29.55 % in 365 days"), std::string::npos)
        << finding("inFindings", "leak.rate");
    EXPECT_EQ(net("D001"), "25.0 lb") << "nothing is written yet";
    click("inRecord");
    ASSERT_EQ(text("inProblem"), "");
    EXPECT_EQ(net("D001"), "18.5 lb");
    // A rate a year asks for the addition before, which nobody knows.
    window().openPlace(QStringLiteral("today"));
    EXPECT_TRUE(said("alerts", "BRIGHTWATER/STORE-2: leaks 29.55 % in 365 days, the limit is 10 %"))
        << finding("alerts", "leak.rate");
    askBooks("additions", "bookSystem", "BRIGHTWATER/STORE-2");
    ASSERT_EQ(the<QTableWidget>("bookTable").rowCount(), 1);
    EXPECT_EQ(cell("bookTable", 0, 0), "2026-09-16");
    EXPECT_EQ(cell("bookTable", 0, 1), "2.948351"); // 14.106723 - 11.158372: each weight to the mg
    EXPECT_NE(
        text("bookSentence").find("leak rate not told: the addition of 2026-09-16 is the only one known"),
        std::string::npos)
        << text("bookSentence");
}

void AWeekInTheWindow::wednesday() {
    setTime("2026-09-16T14:00:00Z");
    ASSERT_NO_FATAL_FAILURE(chargeStore2());
    // 11. Another owner's gas is not for STORE-2.
    window().openPlace(QStringLiteral("jobs"));
    scan("A102"); // into the open check-in; the plan is made on its own tab
    emit window().desk().errand(Errand::checkOut, QStringLiteral("A102"));
    pick(the<QComboBox>("outPurpose"), 1);
    choose("outPerson", "MORGAN VALE");
    choose("outSystem", "BRIGHTWATER/STORE-2");
    EXPECT_FALSE(the<QPushButton>("outRecord").isEnabled());
    EXPECT_TRUE(said("outFindings", "St. Alder Schools"));
    choose("outSystem", "ST-ALDER/GYM-1");
    EXPECT_TRUE(the<QPushButton>("outRecord").isEnabled());
    click("outClear");
    checkIn("A102", 1, "ST-ALDER/GYM-1", "", "51.6 lb");
    EXPECT_EQ(net("A102"), "23.5 lb");
    // 12. The wrong gross: reversed on the card and entered again, backdated.
    scan("A102");
    window().openPlace(QStringLiteral("fleet"));
    scan("A102");
    auto& history = the<QTableWidget>("cardHistory");
    for (int row = 0; row < history.rowCount(); ++row) {
        if (history.item(row, 0)->text().toLongLong() == m_monday) {
            history.selectRow(row);
        }
    }
    questions::queueAnswer(QStringLiteral("the gross was 59.9"));
    click("cardReverse");
    checkIn("A102", 0, "ST-ALDER/RTU-3", "28.1 lb", "59.9 lb", "2026-09-14 15:00");
    EXPECT_EQ(net("A102"), "23.8 lb");
    // 13. A lost ticket.
    checkIn("A102", 1, "ST-ALDER/GYM-1", "59.9 lb", "57.9 lb", "9/15/2026 2:00 PM");
    EXPECT_EQ(net("A102"), "21.8 lb");
    // Both versions stay visible, and why the first is gone.
    window().openPlace(QStringLiteral("fleet"));
    scan("A102");
    EXPECT_TRUE(shop().store().reversedBy(m_monday).has_value());
    for (const char* words : {"Recovered 31.5 lb", "Recovered 31.8 lb", "the gross was 59.9"}) {
        int found = 0;
        for (int row = 0; row < history.rowCount(); ++row) {
            found += cell("cardHistory", row, 2).find(words) == std::string::npos ? 0 : 1;
        }
        EXPECT_GE(found, 1) << words;
    }
}

} // namespace tarebook::tests

using AWeekFromMonday = tarebook::tests::AWeekInTheWindow;

TEST_F(AWeekFromMonday, FromTheFirstImportToTheAuditor) {
    ASSERT_NO_FATAL_FAILURE(importTheSeven());
    ASSERT_NO_FATAL_FAILURE(planAndCheckOut());
    ASSERT_NO_FATAL_FAILURE(tuesday());
    ASSERT_NO_FATAL_FAILURE(wednesday());
    ASSERT_NO_FATAL_FAILURE(identity());
    ASSERT_NO_FATAL_FAILURE(papers());
    ASSERT_NO_FATAL_FAILURE(receipt());
    ASSERT_NO_FATAL_FAILURE(auditor());
}

// 10. The addition before comes to light: 6.5 of 22 lb over ten days, 6.5 / 22 x 365 / 10 = 1078.41 % by the
// annualizing method of 40 CFR 82.152 (84.102 the same); 7.5 of 22 lb within 365 days are 34.09 %. The limit
// of comfort cooling is 10 % (40 CFR 82.157(c)(2), 84.106).
TEST_F(AWeekFromMonday, TheLeakRateAppearsWithTheAdditionBefore) {
    ASSERT_NO_FATAL_FAILURE(importTheSeven());
    setTime("2026-09-16T14:00:00Z");
    ASSERT_NO_FATAL_FAILURE(chargeStore2());
    checkIn("D001", 1, "BRIGHTWATER/STORE-2", "31.1 lb", "30.1 lb", "2026-09-06 10:00");
    askBooks("additions", "bookSystem", "BRIGHTWATER/STORE-2");
    EXPECT_EQ(the<QTableWidget>("bookTable").rowCount(), 2);
    EXPECT_NE(text("bookSentence").find("leak rate 1078.41 %"), std::string::npos) << text("bookSentence");
    EXPECT_NE(text("bookSentence").find("365 days 34.09 %"), std::string::npos) << text("bookSentence");
    EXPECT_EQ(the<QTableWidget>("bookEntries").rowCount(), 2);
    window().openPlace(QStringLiteral("today"));
    EXPECT_TRUE(said("alerts", "BRIGHTWATER/STORE-2: leaks 1078.41 %, the limit is 10 %"))
        << finding("alerts", "leak.rate");
}
