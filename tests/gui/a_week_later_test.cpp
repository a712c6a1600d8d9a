// The week at the counter in the window, from Thursday on: the gauge, the batch and its papers, the receipt,
// the auditor. Begun in tests/gui/a_week_test.cpp.
#include "tests/gui/support/a_week.h"

#include <QAction>
#include <QCheckBox>
#include <QDate>
#include <QDateEdit>
#include <QDialog>
#include <QFile>
#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QTableView>
#include <QTableWidget>

#include "core/shop/returns.h"
#include "tests/pages/support/printed_page.h"
#include "ui/evidence_dialog.h"
#include "ui/finding_view.h"
#include "ui/kit.h"
#include "ui/questions.h"

namespace tarebook::tests {
namespace {

constexpr double kDots = 72;
constexpr int kOnlyWeighed = 6;
constexpr int kStaysThere = 1;

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

/// All pages of a PDF as text, its lines joined: where they break is for the approved pages.
std::string textOf(const std::string& pdf) {
    std::string text;
    for (const PrintedPage& page : printedPages(pdf, kDots)) {
        text += page.text;
    }
    std::replace(text.begin(), text.end(), '\n', ' ');
    return text;
}

} // namespace

void AWeekInTheWindow::askBooks(const char* question, const char* field, const char* about) {
    window().openPlace(QStringLiteral("books"));
    auto& box = the<QComboBox>("bookQuestion");
    const int place = box.findData(QString::fromLatin1(question));
    ASSERT_GE(place, 0) << question;
    pick(box, place);
    ASSERT_EQ(box.currentIndex(), place) << question;
    if (field != nullptr) {
        choose(field, about);
    }
    click("bookAsk");
}

void AWeekInTheWindow::identity() {
    setTime("2026-09-17T14:00:00Z");
    // 14. The gauge at rest: R-410A at 70 degF shows 201 psig; 215 psig is too high.
    emit window().desk().errand(Errand::checkIn, QStringLiteral("A102"));
    pick(the<QComboBox>("inWhat"), kOnlyWeighed);
    type("inAfter", "49.9 lb");
    type("inTemperature", "70 F");
    type("inPressure", "201 psig");
    EXPECT_TRUE(holds(finding("inFindings", "identity.consistent"), "R-410A"));
    type("inPressure", "215 psig");
    EXPECT_EQ(finding("inFindings", "identity.consistent"), "");
    EXPECT_TRUE(said("inFindings", "higher than R-410A shows"));
    EXPECT_TRUE(said("inFindings", "of air in the gas space")) << "what fits";
    EXPECT_TRUE(holds(finding("inFindings", "identity.air"), "R-290 would show it too"))
        << "another that fits";
    for (const char* field : {"inPressure", "inTemperature", "inAfter", "inSerial"}) {
        type(field, "");
    }
    pick(the<QComboBox>("inWhat"), 0);
}

void AWeekInTheWindow::papers() {
    // 15. The batch.
    window().openPlace(QStringLiteral("returns"));
    const auto row = [this](const char* serial) { return rowOf("candidates", serial); };
    for (const auto& [serial, line] :
         {std::pair{"A105", "mixed"}, {"A102", "R-410A"}, {"A103", "R-22"}, {"A107", "R-22"}}) {
        EXPECT_EQ(cell("candidates", row(serial), 1), line) << serial;
    }
    EXPECT_TRUE(holds(cell("candidates", row("A101"), 5), "Stays"));
    EXPECT_TRUE(holds(cell("candidates", row("A101"), 5), "after its retest was due"));
    EXPECT_EQ(cell("candidates", row("A103"), 5), "UN1018, Chlorodifluoromethane, 2.2");
    EXPECT_EQ(cell("candidates", row("A107"), 5), "UN1018, Chlorodifluoromethane, 2.2");
    EXPECT_EQ(cell("candidates", row("A102"), 5),
              "UN3163, Liquefied gas, n.o.s. (Difluoromethane, Pentafluoroethane), 2.2");
    EXPECT_TRUE(holds(cell("candidates", row("A105"), 5),
                      "n.o.s. (Difluoromethane, Pentafluoroethane, Chlorodifluoromethane), 2.2"))
        << cell("candidates", row("A105"), 5);
    choose("batchReclaimer", "Cape Reclaim");
    for (const char* serial : {"A101", "A102", "A103", "A105", "A107"}) {
        scan(serial); // the first stays, whatever is scanned
    }
    // 16. 49.9 + 41.8 + 51.9 + 20.0 = 163.6 lb, under 440 lb, each under 220 lb (49 CFR 173.6(a)(2), (d)).
    EXPECT_TRUE(holds(text("batchSum"), "4 chosen, 163.6 lb")) << text("batchSum");
    EXPECT_TRUE(holds(text("batchLoad"), "(163.6 lb) gross on the vehicle")) << text("batchLoad");
    EXPECT_TRUE(holds(text("batchLoad"), "(440.9 lb) allowed as materials of trade")) << text("batchLoad");
    EXPECT_TRUE(holds(text("batchLoad"), "49 CFR 173.6")) << text("batchLoad");
    for (const auto& [serial, gross] :
         {std::pair{"A102", "49.9 lb"}, {"A103", "41.8 lb"}, {"A105", "51.9 lb"}, {"A107", "20.0 lb"}}) {
        EXPECT_EQ(cell("candidates", row(serial), 3), gross) << serial;
    }
    EXPECT_EQ(the<FindingView>("batchFindings").count(), 0);
    click("batchPrepare");
    ASSERT_EQ(batches(shop()).value().front().lines.size(), 4U);
    printManifest();
    printShippingPaper();
    bool left = false;
    whenOpen(*m_program, "factsDialog", left, [this] {
        type("fact:carrier", "own van");
        click("factsEnter");
    });
    click("batchShip");
    EXPECT_TRUE(left);
    EXPECT_EQ(card(shop(), "A102").value().state.condition, Condition::away);
}

void AWeekInTheWindow::printManifest() {
    bool asked = false;
    whenAFileIsAsked(*m_program, file("manifest.pdf"), asked);
    click("batchPdf");
    EXPECT_TRUE(asked);
    const std::string printed = textOf(file("manifest.pdf"));
    for (const char* part :
         {"Larkspur Mechanical", "Cape Reclaim", "A102", "A103", "A105", "A107",
          "UN1018, Chlorodifluoromethane, 2.2, 2 cylinders, 28.0 lb net",
          "UN3163, Liquefied gas, n.o.s. (Difluoromethane, Pentafluoroethane), 2.2, 1 cylinder, 21.8 lb net",
          "4 cylinders, gross 163.6 lb", "Storage 4.0 lb", "Grocers 20.0 lb"}) {
        EXPECT_TRUE(holds(printed, part)) << part << " in: " << printed;
    }
    EXPECT_TRUE(
        holds(printed, shop().store().entry(shop().store().headSeq() - 1).value().digest.substr(0, 16)))
        << "the head of the books before its issue: " << printed;
}

/// 49 CFR 172.604 asks for an emergency telephone; once it is on file the paper is printed.
void AWeekInTheWindow::printShippingPaper() {
    questions::queueAnswer(std::nullopt); // the notice is closed
    click("batchShipping");
    EXPECT_TRUE(questions::lastTold().contains(QStringLiteral("emergency telephone")))
        << utf8(questions::lastTold());
    bool set = false;
    whenOpen(*m_program, "settingsDialog", set, [this] {
        type("settingEmergency", "1-555-010-0142");
        click("settingsAccept");
    });
    the<QAction>("actionSettings").trigger();
    ASSERT_TRUE(set);
    window().openPlace(QStringLiteral("returns"));
    bool shown = false;
    bool asked = false;
    whenOpen(*m_program, "shippingDialog", shown, [&] {
        const std::string paper = utf8(the<QPlainTextEdit>("shippingText").toPlainText());
        EXPECT_TRUE(holds(paper, "UN1018, Chlorodifluoromethane, 2.2")) << paper;
        whenAFileIsAsked(*m_program, file("shipping.pdf"), asked);
        click("shippingPdf");
        EXPECT_TRUE(holds(text("shippingNote"), "shipping.pdf")) << text("shippingNote");
        click("shippingClose");
    });
    click("batchShipping");
    ASSERT_TRUE(shown && asked);
    const std::string printed = textOf(file("shipping.pdf"));
    // In its narrow column a long description goes on below the figures of its row.
    for (const char* part :
         {"UN1018, Chlorodifluoromethane, 2.2 28.0 lb 61.8 lb A103, A107",
          "UN3163, Liquefied gas, n.o.s. (Difluoromethane, 21.8 lb 49.9 lb A102 Pentafluoroethane), 2.2",
          "UN1078, Refrigerant gases, n.o.s.", "24.0 lb 51.9 lb A105", "Chlorodifluoromethane), 2.2",
          "1-555-010-0142"}) {
        EXPECT_TRUE(holds(printed, part)) << part << " in: " << printed;
    }
}

void AWeekInTheWindow::receipt() {
    // 17. The following Monday.
    setTime("2026-09-21T14:00:00Z");
    bool entered = false;
    whenOpen(*m_program, "receiptDialog", entered, [this] {
        type("receiptReference", "CR-8841");
        EXPECT_EQ(utf8(the<QLineEdit>("receiptTare:A102").text()), "28.1 lb") << "its own";
        for (const auto& [serial, gross] :
             {std::pair{"A102", "49.1 lb"}, {"A103", "41.8 lb"}, {"A105", "51.9 lb"}, {"A107", "20.0 lb"}}) {
            type((std::string("receiptGross:") + serial).c_str(), gross);
        }
        type("receiptAnalysis:A105", "17.2 % R-22");
        const std::string off = cell("receiptTable", rowOf("receiptTable", "A102"), 5);
        EXPECT_TRUE(holds(off, "-0.8 lb") && holds(off, "-3.7 %")) << off;
        EXPECT_TRUE(holds(text("receiptCauses"), "A102")) << text("receiptCauses");
        click("receiptEnter");
    });
    click("batchReceive");
    EXPECT_TRUE(entered);
    // It asks a question, and proposes causes.
    window().openPlace(QStringLiteral("today"));
    EXPECT_TRUE(said("alerts", "Undecided: A102"));
    bool compared = false;
    whenOpen(*m_program, "differencesDialog", compared, [this] {
        const int row = rowOf("differences", "A102");
        EXPECT_EQ(cell("differences", row, 1), "21.8 lb");
        EXPECT_EQ(cell("differences", row, 2), "21.0 lb");
        EXPECT_EQ(cell("differences", row, 3), "-0.8 lb");
        EXPECT_NE(cell("differences", row, 6), "") << "the likeliest cause";
        auto& table = the<QTableWidget>("differences");
        table.setFocus();
        table.selectRow(row);
        // 49 lb 10 oz, written 49.1? 10 oz are 0.6 lb: 49.6 - 28.1 = 21.5. Or gas that is gone.
        EXPECT_TRUE(holds(text("differencesCauses"), "49.6 lb gross")) << text("differencesCauses");
        EXPECT_TRUE(holds(text("differencesCauses"), "0.8 lb less than shipped. Look for a leak"))
            << text("differencesCauses");
        EXPECT_TRUE(holds(cell("differences", rowOf("differences", "A105"), 8), "17.2 % R-22"));
        EXPECT_EQ(cell("differences", rowOf("differences", "A105"), 6), "") << "it agrees";
        click("differencesAccept");
        EXPECT_EQ(cell("differences", row, 7), "accepted");
        qobject_cast<QDialog*>(table.window())->reject();
    });
    click("act:batch:B-2026-001");
    EXPECT_TRUE(compared);
    EXPECT_FALSE(said("alerts", "Undecided"));
    settle();
}

void AWeekInTheWindow::settle() {
    window().openPlace(QStringLiteral("returns"));
    const Sequence before = shop().store().headSeq();
    bool settled = false;
    whenOpen(*m_program, "settleDialog", settled, [this] {
        pick(the<QComboBox>("settleFate:A105"), kStaysThere);
        for (const auto& [field, text] : {std::pair{"settleSerial:A105", "A201"},
                                          {"settleSpec:A105", "DOT-4BA400"},
                                          {"settleCapacity:A105", "47.7 lb"},
                                          {"settleTare:A105", "27.6 lb"},
                                          {"settleMade:A105", "2024-02"}}) {
            type(field, text);
        }
        click("settleEnter");
    });
    click("batchSettle");
    EXPECT_TRUE(settled);
    EXPECT_EQ(card(shop(), "A105").value().state.condition, Condition::retired);
    EXPECT_EQ(net("A201"), "0.0 lb");
    window().openPlace(QStringLiteral("fleet"));
    const QAbstractItemModel& fleet = *the<QTableView>("fleetTable").model();
    const auto listed = [&fleet](const char* serial) {
        return fleet.match(fleet.index(0, 0), Qt::DisplayRole, QLatin1String(serial), 1, Qt::MatchExactly)
            .size();
    };
    EXPECT_EQ(listed("A201"), 1);
    EXPECT_EQ(listed("A102"), 1) << "it came back";
    EXPECT_EQ(listed("A105"), 0) << "it stays there";
    // By one settlement; what came back and what came for A105 stand behind it, written in the same act.
    const auto written = shop().store().entries(before + 1, shop().store().headSeq()).value();
    int settlements = 0;
    for (const Entry& entry : written) {
        settlements += entry.kind == EntryKind::batchSettled ? 1 : 0;
        EXPECT_EQ(entry.recorded, written.front().recorded);
    }
    EXPECT_EQ(settlements, 1);
    EXPECT_EQ(written.front().kind, EntryKind::batchSettled);
    EXPECT_TRUE(shop().store().verify().value().problems.empty());
}

void AWeekInTheWindow::auditor() {
    // 18. Where did the charge of RTU-3 go?
    window().openPlace(QStringLiteral("books"));
    pick(the<QComboBox>("bookQuestion"), 0);
    auto& lots = the<QComboBox>("bookLot");
    for (int item = 0; item < lots.count(); ++item) {
        if (lots.itemText(item).contains(QStringLiteral("31.8 lb"))) {
            lots.setCurrentIndex(item);
        }
    }
    click("bookAsk");
    EXPECT_TRUE(holds(text("bookSentence"), "31.8 lb of R-410A came from ST-ALDER/RTU-3 on 2026-09-14"))
        << text("bookSentence");
    EXPECT_TRUE(holds(text("bookSentence"), "10.0 lb in ST-ALDER/GYM-1")) << text("bookSentence");
    EXPECT_TRUE(holds(text("bookSentence"), "21.8 lb at Cape Reclaim")) << text("bookSentence");
    EXPECT_NE(rowOf("bookTable", "10.0 lb"), -1);
    EXPECT_NE(rowOf("bookTable", "21.8 lb"), -1);
    const auto behind = [this](const char* words) {
        int found = 0;
        for (int row = 0; row < the<QTableWidget>("bookEntries").rowCount(); ++row) {
            found += holds(cell("bookEntries", row, 3), words) ? 1 : 0;
        }
        return found;
    };
    EXPECT_EQ(behind("Recovered 31.8 lb"), 1);
    EXPECT_EQ(behind("into ST-ALDER/GYM-1"), 2) << "two charges";
    EXPECT_EQ(behind("Shipped batch B-2026-001 to Cape Reclaim"), 1);
    EXPECT_EQ(behind("receipt CR-8841"), 1);
    EXPECT_TRUE(holds(text("bookHead"), shop().store().headDigest()));
    // As the books stood on Monday evening: the version of then.
    type("bookAsOf", "2026-09-14");
    lots.setEditText(QString::number(m_monday));
    click("bookAsk");
    EXPECT_EQ(cell("bookTable", 0, 0), "31.5 lb") << text("bookSentence");
    EXPECT_EQ(cell("bookTable", 0, 1), "cylinder A102");
    EXPECT_FALSE(holds(text("bookHead"), shop().store().headDigest())) << "the head of then";
    // Where did A105's contents come from? As they were before it left.
    type("bookAsOf", "2026-09-16");
    pick(the<QComboBox>("bookQuestion"), 1);
    type("bookCylinder", "A105");
    QTest::keyClick(&the<QLineEdit>("bookCylinder"), Qt::Key_Return);
    ASSERT_EQ(the<QTableWidget>("bookTable").rowCount(), 2);
    for (const char* part : {"20.0 lb", "4.0 lb", "Brightwater Grocers", "Ansel Harbor Cold Storage",
                             "BRIGHTWATER/STORE-2", "HARBOR/DOCK-1"}) {
        EXPECT_TRUE(holds(text("bookSentence"), part)) << part << " in " << text("bookSentence");
    }
    EXPECT_EQ(the<QTableWidget>("bookEntries").rowCount(), 2);
    // Who held A102?
    type("bookAsOf", "");
    pick(the<QComboBox>("bookQuestion"), 2);
    type("bookCylinder", "A102");
    click("bookAsk");
    EXPECT_NE(rowOf("bookTable", "MORGAN VALE"), -1);
    balances();
    evidence();
}

void AWeekInTheWindow::balances() {
    // 19. The period closes, to the milligram.
    EXPECT_EQ(the<QDateEdit>("bookTo").date(), QDate(2026, 9, 21)) << "the window was open all week";
    pick(the<QComboBox>("bookQuestion"), 3);
    click("bookAsk");
    auto& sums = the<QTableWidget>("bookTable");
    ASSERT_EQ(sums.rowCount(), 2);
    const auto milligrams = [&](int row, int column) {
        return std::llround(sums.item(row, column)->text().toDouble() * 1e6);
    };
    for (int row = 0; row < sums.rowCount(); ++row) {
        EXPECT_EQ(milligrams(row, 1) + milligrams(row, 2) + milligrams(row, 3) - milligrams(row, 4) -
                      milligrams(row, 5) - milligrams(row, 6) + milligrams(row, 7),
                  milligrams(row, 8))
            << cell("bookTable", row, 0);
        EXPECT_NE(milligrams(row, 3), 0);
    }
    EXPECT_TRUE(shop().store().verify().value().problems.empty());
    // Month by month: all of it happened in September, and a row opens to its entries.
    askBooks("balances");
    ASSERT_EQ(sums.rowCount(), 2);
    for (int row = 0; row < sums.rowCount(); ++row) {
        EXPECT_EQ(cell("bookTable", row, 0), "2026-09-01");
        EXPECT_EQ(milligrams(row, 3) + milligrams(row, 4) - milligrams(row, 5) + milligrams(row, 6),
                  milligrams(row, 7))
            << cell("bookTable", row, 2);
    }
    EXPECT_TRUE(holds(text("bookSentence"), "the cylinders held the same on both days"))
        << text("bookSentence");
    EXPECT_EQ(cell("bookTable", 0, 2), "R-22");
    sums.setFocus();
    sums.setCurrentCell(0, 0);
    QTest::keyClick(&sums, Qt::Key_Return);
    // 14.6 lb and twice from DOCK-1, A103 and A107 and the 4.0 lb of A105 shipped.
    ASSERT_EQ(the<QTableWidget>("bookEntries").rowCount(), 4);
    EXPECT_TRUE(holds(cell("bookEntries", 3, 3), "Shipped batch")) << cell("bookEntries", 3, 3);
    // A last day that somebody has chosen stays.
    the<QDateEdit>("bookTo").setDate(QDate(2026, 9, 20));
    setTime("2026-09-22T14:00:00Z");
    window().openPlace(QStringLiteral("today"));
    window().openPlace(QStringLiteral("books"));
    EXPECT_EQ(the<QDateEdit>("bookTo").date(), QDate(2026, 9, 20));
}

void AWeekInTheWindow::evidence() {
    bool packed = false;
    whenOpen(*m_program, "evidenceDialog", packed, [this] {
        auto* pack = qobject_cast<EvidenceDialog*>(QApplication::activeModalWidget());
        pack->setPeriod(QDate(2026, 9, 1), QDate(2026, 9, 30));
        type("evidenceFolder", file("pack.zip").c_str());
        EXPECT_TRUE(the<QCheckBox>("evidenceZip").isChecked()) << "its name says so";
        click("evidenceMake");
    });
    click("bookEvidence");
    EXPECT_TRUE(packed);
    const std::string check = fmt::format("cd '{}' && unzip -q pack.zip && cd evidence-{} && sha256sum "
                                          "--strict --quiet -c SHA256SUMS && sh prove.sh > /dev/null",
                                          m_folder.string(), shop().store().headSeq());
    EXPECT_EQ(std::system(check.c_str()), 0);
}

} // namespace tarebook::tests
