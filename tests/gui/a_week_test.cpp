// The whole week at the counter, played through the window from the first import to the auditor, in one go.
// Sources of the figures: tests/shop/a_week_test.cpp.
#include "tests/gui/support/week_window.h"

#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTableWidget>
#include <QTimer>

#include "core/shop/returns.h"
#include "core/shop/van.h"
#include "ui/evidence_dialog.h"
#include "ui/finding_view.h"
#include "ui/import_dialog.h"
#include "ui/kit.h"
#include "ui/questions.h"
#include "ui/returns_page.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class AWeekInTheWindow : public WeekWindow {
protected:
    void importTheSeven();
    void planAndCheckOut();
    void tuesday();
    void wednesday();
    void batch();
    void auditor();

    Sequence m_monday = 0; // the check-in with the wrong gross
};

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
    write("seven.csv", sheet("DOT-4BX400", "279 lb"));
    ImportDialog dialog(window().desk(), &window());
    dialog.show();
    dialog.readFile(qt(file("seven.csv")));
    QApplication::processEvents();
    ASSERT_EQ(the<QTableWidget>("importRows").rowCount(), 7);
    EXPECT_NE(cell("importRows", 0, 3).find("DOT-4BA"), std::string::npos) << "what would be right";
    EXPECT_NE(cell("importRows", 1, 3).find("279"), std::string::npos) << cell("importRows", 1, 3);
    EXPECT_FALSE(the<QPushButton>("importWrite").isEnabled());
    EXPECT_EQ(shop().store().fleetCount(), 0);
    // Mended in the spreadsheet, and read again.
    write("seven.csv", sheet("DOT-4BA400", "27.9 lb"));
    dialog.readFile(qt(file("seven.csv")));
    click("importWrite");
    ASSERT_EQ(shop().store().fleetCount(), 7);
    // What was inside when the books began.
    write("before.csv", "occurred,kind,from,to,mass,refrigerant\n"
                        "2026-09-01 10:00,recovered,system:HARBOR/DOCK-1,cylinder:A103,14.6 lb,R-22\n"
                        "2026-09-02 10:00,recovered,system:BRIGHTWATER/STORE-2,cylinder:A105,20.0 lb,R-410A\n"
                        "2026-09-03 10:00,bought,supplier:Estuary Supply,cylinder:D001,25.0 lb,R-410A\n");
    ImportDialog movements(window().desk(), &window());
    movements.show();
    auto* kind = movements.findChild<QComboBox*>(QStringLiteral("importKind"));
    for (int item = 0; item < kind->count(); ++item) {
        if (kind->itemText(item).contains(QStringLiteral("movement"), Qt::CaseInsensitive)) {
            kind->setCurrentIndex(item);
        }
    }
    movements.readFile(qt(file("before.csv")));
    auto* agree = movements.findChild<QPushButton*>(QStringLiteral("importWrite"));
    ASSERT_TRUE(agree->isEnabled()) << utf8(
        movements.findChild<QLabel*>(QStringLiteral("importObstacle"))->text());
    agree->click();
    EXPECT_EQ(net("A103"), "14.6 lb");
    EXPECT_EQ(net("A105"), "20.0 lb");
    EXPECT_EQ(net("D001"), "25.0 lb");
}

void AWeekInTheWindow::planAndCheckOut() {
    // 2. Today.
    window().openPlace(QStringLiteral("today"));
    ASSERT_EQ(the<FindingView>("alerts").count(), 2);
    EXPECT_NE(finding("alerts", "retest.overdue").find("2026-03"), std::string::npos);
    EXPECT_NE(finding("alerts", "person.certificate").find("2026-10-31"), std::string::npos);
    window().openPlace(QStringLiteral("fleet"));
    for (const auto& [serial, due] :
         {std::pair{"A102", "2028-06"}, {"A104", "2027-05"}, {"A105", "2027-10"}}) {
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
    EXPECT_NE(why("A104").find("484."), std::string::npos) << why("A104");
    EXPECT_NE(why("A103").find("R-22"), std::string::npos) << why("A103");
    EXPECT_NE(why("A105").find("Brightwater Grocers"), std::string::npos) << why("A105");
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
}

void AWeekInTheWindow::tuesday() {
    setTime("2026-09-15T14:00:00Z");
    // 6. Mixed by accident.
    checkIn("A105", 0, "HARBOR/DOCK-1", "47.9 lb", "51.9 lb");
    EXPECT_NE(finding("inFindings", "contents.mixed"), "");
    EXPECT_NE(text("inComposition").find("R-22 16.7 %"), std::string::npos) << text("inComposition");
    EXPECT_NE(text("inComposition").find("20.0 lb of Brightwater Grocers"), std::string::npos);
    EXPECT_NE(text("inComposition").find("4.0 lb of Ansel Harbor Cold Storage"), std::string::npos);
    // 7. Overfilled: 28.0 against the lawful 27.5 and the practice of 25.0.
    checkIn("A103", 0, "HARBOR/DOCK-1", "31.6 lb", "45.0 lb");
    EXPECT_EQ(text("inNet"), "28.0 lb");
    const std::string over = finding("inFindings", "fill.overfilled");
    for (const char* figure : {"27.5 lb", "0.5 lb", "= 25.0", "3.0 lb"}) {
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
    // 9. Filled after its retest was due.
    checkIn("A101", 0, "BRIGHTWATER/STORE-2", "27.0 lb", "39.0 lb");
    EXPECT_NE(finding("inFindings", "retest.filled-late"), "");
    EXPECT_FALSE(card(shop(), "A101").value().shipAllowed);
}

void AWeekInTheWindow::wednesday() {
    setTime("2026-09-16T14:00:00Z");
    // 10. New gas into STORE-2.
    checkIn("D001", 1, "BRIGHTWATER/STORE-2", "31.1 lb", "24.6 lb");
    EXPECT_EQ(net("D001"), "18.5 lb");
    // 11. Another owner's gas is not for STORE-2.
    window().openPlace(QStringLiteral("jobs"));
    scan("A102"); // into the open check-in; the plan is made on its own tab
    emit window().desk().errand(Errand::checkOut, QStringLiteral("A102"));
    the<QComboBox>("outPurpose").setCurrentIndex(1);
    choose("outPerson", "MORGAN VALE");
    choose("outSystem", "BRIGHTWATER/STORE-2");
    EXPECT_FALSE(the<QPushButton>("outRecord").isEnabled());
    EXPECT_TRUE(said("outFindings", "St. Alder Schools"));
    choose("outSystem", "ST-ALDER/GYM-1");
    EXPECT_TRUE(the<QPushButton>("outRecord").isEnabled());
    click("outClear");
    checkIn("A102", 1, "ST-ALDER/GYM-1", "", "51.6 lb");
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
    // Both versions stay visible.
    window().openPlace(QStringLiteral("fleet"));
    scan("A102");
    int recoveries = 0;
    for (int row = 0; row < history.rowCount(); ++row) {
        recoveries += history.item(row, 2)->text().contains(QStringLiteral("RTU-3")) ? 1 : 0;
    }
    EXPECT_GE(recoveries, 2);
}

void AWeekInTheWindow::batch() {
    setTime("2026-09-17T14:00:00Z");
    // 14. The gauge at rest: R-410A at 70 degF shows 201 psig; 215 psig is too high.
    emit window().desk().errand(Errand::checkIn, QStringLiteral("A102"));
    the<QComboBox>("inWhat").setCurrentIndex(6); // only weighed
    type("inAfter", "49.9 lb");
    type("inTemperature", "70 F");
    type("inPressure", "201 psig");
    EXPECT_NE(finding("inFindings", "identity.consistent").find("R-410A"), std::string::npos);
    type("inPressure", "215 psig");
    EXPECT_EQ(finding("inFindings", "identity.consistent"), "");
    EXPECT_TRUE(said("inFindings", "higher than R-410A shows"));
    for (const char* field : {"inPressure", "inTemperature", "inAfter", "inSerial"}) {
        type(field, "");
    }
    the<QComboBox>("inWhat").setCurrentIndex(0);
    // 15. The batch.
    window().openPlace(QStringLiteral("returns"));
    EXPECT_EQ(cell("candidates", rowOf("candidates", "A105"), 1), "mixed");
    EXPECT_EQ(cell("candidates", rowOf("candidates", "A102"), 1), "R-410A");
    EXPECT_NE(cell("candidates", rowOf("candidates", "A101"), 5).find("Stays"), std::string::npos);
    EXPECT_EQ(cell("candidates", rowOf("candidates", "A103"), 5), "UN1018, Chlorodifluoromethane, 2.2");
    EXPECT_EQ(cell("candidates", rowOf("candidates", "A102"), 5),
              "UN3163, Liquefied gas, n.o.s. (Difluoromethane, Pentafluoroethane), 2.2");
    choose("batchReclaimer", "Cape Reclaim");
    for (const char* serial : {"A102", "A103", "A105", "A107"}) {
        scan(serial);
    }
    EXPECT_NE(text("batchSum").find("163.6 lb"), std::string::npos) << text("batchSum");
    // 16. As one load it is under 440 lb, each under 220 lb (49 CFR 173.6): nothing is said against it.
    EXPECT_TRUE(vanLoad(shop(), {}, {"A102", "A103", "A105", "A107"}).value().load.relieved);
    EXPECT_EQ(the<FindingView>("batchFindings").count(), 0);
    click("batchPrepare");
    auto& page = dynamic_cast<ReturnsPage&>(*window().page(QStringLiteral("returns")));
    ASSERT_TRUE(page.savePdf(qt(file("manifest.pdf"))));
    QTimer::singleShot(0, [this] {
        type("fact:carrier", "own van");
        click("factsEnter");
    });
    click("batchShip");
    EXPECT_EQ(card(shop(), "A102").value().state.condition, Condition::away);
    // The receipt of the following Monday.
    setTime("2026-09-21T14:00:00Z");
    QTimer::singleShot(0, [this] {
        type("receiptReference", "CR-8841");
        for (const auto& [serial, gross] :
             {std::pair{"A102", "49.1 lb"}, {"A103", "41.8 lb"}, {"A105", "51.9 lb"}, {"A107", "20.0 lb"}}) {
            type((std::string("receiptGross:") + serial).c_str(), gross);
        }
        type("receiptAnalysis:A105", "17.2 % R-22");
        const std::string off = cell("receiptTable", rowOf("receiptTable", "A102"), 5);
        EXPECT_NE(off.find("-0.8 lb"), std::string::npos) << off;
        EXPECT_NE(off.find("-3.7 %"), std::string::npos) << off;
        click("receiptEnter");
    });
    click("batchReceive");
    QTimer::singleShot(0, [this] {
        the<QComboBox>("settleFate:A105").setCurrentIndex(1);
        type("settleSerial:A105", "A201");
        type("settleSpec:A105", "DOT-4BA400");
        type("settleCapacity:A105", "47.7 lb");
        type("settleTare:A105", "27.6 lb");
        type("settleMade:A105", "2024-02");
        click("settleEnter");
    });
    click("batchSettle");
    EXPECT_EQ(card(shop(), "A105").value().state.condition, Condition::retired);
    EXPECT_EQ(net("A201"), "0.0 lb");
}

void AWeekInTheWindow::auditor() {
    // 18. Where did the charge of RTU-3 go?
    window().openPlace(QStringLiteral("books"));
    the<QComboBox>("bookQuestion").setCurrentIndex(0);
    auto& lots = the<QComboBox>("bookLot");
    for (int item = 0; item < lots.count(); ++item) {
        if (lots.itemText(item).contains(QStringLiteral("31.8 lb"))) {
            lots.setCurrentIndex(item);
        }
    }
    click("bookAsk");
    EXPECT_NE(text("bookSentence").find("31.8 lb"), std::string::npos) << text("bookSentence");
    EXPECT_NE(text("bookSentence").find("10.0 lb in ST-ALDER/GYM-1"), std::string::npos)
        << text("bookSentence");
    EXPECT_NE(rowOf("bookTable", "10.0 lb"), -1);
    EXPECT_NE(text("bookHead").find(shop().store().headDigest()), std::string::npos);
    // As the books stood on Monday evening: the version of then.
    type("bookAsOf", "2026-09-14");
    lots.setEditText(QString::number(m_monday));
    click("bookAsk");
    EXPECT_EQ(cell("bookTable", 0, 0), "31.5 lb") << text("bookSentence");
    EXPECT_EQ(cell("bookTable", 0, 1), "cylinder A102");
    // Where did A105's contents come from? As they were before it left.
    type("bookAsOf", "2026-09-16");
    the<QComboBox>("bookQuestion").setCurrentIndex(1);
    type("bookCylinder", "A105");
    click("bookAsk");
    ASSERT_EQ(the<QTableWidget>("bookTable").rowCount(), 2);
    for (const char* part : {"20.0 lb", "4.0 lb", "Brightwater Grocers", "Ansel Harbor Cold Storage"}) {
        EXPECT_NE(text("bookSentence").find(part), std::string::npos)
            << part << " in " << text("bookSentence");
    }
    // Who held A102?
    type("bookAsOf", "");
    the<QComboBox>("bookQuestion").setCurrentIndex(2);
    type("bookCylinder", "A102");
    click("bookAsk");
    EXPECT_NE(rowOf("bookTable", "MORGAN VALE"), -1);
    // 19. The period closes, to the milligram.
    the<QComboBox>("bookQuestion").setCurrentIndex(3);
    click("bookAsk");
    auto& sums = the<QTableWidget>("bookTable");
    ASSERT_EQ(sums.rowCount(), 2);
    for (int row = 0; row < sums.rowCount(); ++row) {
        const auto milligrams = [&](int column) {
            return std::llround(sums.item(row, column)->text().toDouble() * 1e6);
        };
        EXPECT_EQ(milligrams(1) + milligrams(2) + milligrams(3) - milligrams(4) - milligrams(5) -
                      milligrams(6) + milligrams(7),
                  milligrams(8))
            << cell("bookTable", row, 0);
        EXPECT_NE(milligrams(3), 0);
    }
    EXPECT_TRUE(shop().store().verify().value().problems.empty());
    EvidenceDialog pack(window().desk(), &window());
    pack.show();
    pack.setPeriod(QDate(2026, 9, 1), QDate(2026, 9, 30));
    type("evidenceFolder", file("pack.zip").c_str());
    EXPECT_TRUE(the<QCheckBox>("evidenceZip").isChecked()) << "its name says so";
    click("evidenceMake");
    EXPECT_EQ(pack.result(), QDialog::Accepted);
    const std::string check = fmt::format("cd '{}' && unzip -q pack.zip && cd evidence-{} && sha256sum "
                                          "--strict --quiet -c SHA256SUMS && sh prove.sh > /dev/null",
                                          m_folder.string(), shop().store().headSeq());
    EXPECT_EQ(std::system(check.c_str()), 0);
}

} // namespace

TEST_F(AWeekInTheWindow, FromTheFirstImportToTheAuditor) {
    importTheSeven();
    planAndCheckOut();
    tuesday();
    wednesday();
    batch();
    auditor();
}
