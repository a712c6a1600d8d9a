// The week at the counter in the window, by keyboard and mouse. Sources of the figures:
// tests/shop/a_week_test.cpp.
#include "core/shop/disposals.h"
#include "tests/gui/support/gui_shop.h"

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTableWidget>
#include <QTimer>

#include "core/shop/returns.h"
#include "core/shop/terms.h"
#include "core/shop/today.h"
#include "ui/finding_view.h"
#include "ui/kit.h"
#include "ui/questions.h"
#include "ui/returns_page.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class WeekInTheWindow : public GuiTest {
protected:
    [[nodiscard]] std::vector<std::string> rulesIn(const char* view) {
        std::vector<std::string> rules;
        for (const FindingCard* card : the<FindingView>(view).cards()) {
            rules.push_back(card->finding().rule);
        }
        return rules;
    }
    [[nodiscard]] bool has(const char* view, const std::string& rule) {
        const auto rules = rulesIn(view);
        return std::find(rules.begin(), rules.end(), rule) != rules.end();
    }
    void checkInFrom(const char* serial, const char* before, const char* after, const char* system) {
        emit window().desk().errand(Errand::checkIn, QString::fromUtf8(serial));
        the<QComboBox>("inWhat").setCurrentIndex(0);
        choose("inSystem", system);
        type("inBefore", before);
        type("inAfter", after);
        click("inRecord");
    }
};

} // namespace

TEST_F(WeekInTheWindow, TodayListsWhatNeedsDoing) {
    window().openPlace(QStringLiteral("today"));
    const auto rules = rulesIn("alerts");
    ASSERT_EQ(rules.size(), 2U);
    EXPECT_EQ(rules[0], "retest.overdue");
    EXPECT_EQ(rules[1], "person.certificate");
    questions::queueAnswer(QStringLiteral("2026-09"));
    click("act:cylinder:A101");
    EXPECT_EQ(card(shop(), "A101").value().due, "2031-09");
    questions::queueAnswer(QStringLiteral("2029-10-31"));
    click("act:person:JULES ARBOR");
    EXPECT_EQ(today(shop(), shop().today()).value().alerts.size(), 0U);
    EXPECT_EQ(the<FindingView>("alerts").count(), 0);
}

// 40 CFR 82.154(d): A105 holds used gas of Brightwater Grocers. What is open about a system is settled in
// Today.
TEST_F(WeekInTheWindow, AnotherOwnersGasInASystemIsSettledWithAReasonInToday) {
    CheckIn facts;
    facts.serial = "A105";
    facts.moved = Mass::parse("2 lb").value();
    facts.to = "system:ST-ALDER/RTU-3";
    ASSERT_TRUE(checkIn(shop(), facts).ok());
    window().openPlace(QStringLiteral("today"));
    EXPECT_TRUE(has("alerts", "release.owner"));
    questions::queueAnswer(QStringLiteral("both owners agreed to be paid"));
    click("overrule:system:ST-ALDER/RTU-3");
    EXPECT_FALSE(has("alerts", "release.owner"));
}

TEST_F(WeekInTheWindow, SixScansAndEnterHandOutFive) {
    window().openPlace(QStringLiteral("jobs"));
    the<QComboBox>("outPurpose").setCurrentIndex(2); // only to carry
    for (const char* text : {"MORGAN VALE", "A102", "A103", "A104", "A105", "A107"}) {
        scan(text);
    }
    EXPECT_EQ(the<QTableWidget>("outList").rowCount(), 5);
    scan(""); // Enter
    for (const char* serial : {"A102", "A103", "A104", "A105", "A107"}) {
        EXPECT_EQ(card(shop(), serial).value().state.holder, "MORGAN VALE") << serial;
    }
}

TEST_F(WeekInTheWindow, PlansTheJobAndRefusesASecondHandOut) {
    window().openPlace(QStringLiteral("jobs"));
    choose("outSystem", "ST-ALDER/RTU-3");
    type("outExpected", "32 lb");
    auto& proposal = the<QTableWidget>("outProposal");
    ASSERT_EQ(proposal.rowCount(), 7);
    EXPECT_EQ(proposal.item(0, 0)->text(), QStringLiteral("A102"));
    EXPECT_EQ(proposal.item(0, 2)->text(), QStringLiteral("68.6 lb"));
    choose("outPerson", "MORGAN VALE");
    type("outJob", "J-2231");
    click("outTake");
    click("outRecord");
    EXPECT_EQ(card(shop(), "A102").value().state.holder, "MORGAN VALE");
    scan("A102");
    EXPECT_TRUE(has("outFindings", "plan.out"));
    EXPECT_FALSE(the<QPushButton>("outRecord").isEnabled());
}

TEST_F(WeekInTheWindow, ChecksInAndSeesAtOnceWhatItDid) {
    checkInFrom("A102", "28.1 lb", "59.6 lb", "ST-ALDER/RTU-3");
    EXPECT_EQ(the<QLabel>("inNet").text(), QStringLiteral("31.5 lb"));
    EXPECT_EQ(the<QLabel>("inRoom").text(), QStringLiteral("9.0 lb"));
    EXPECT_EQ(the<QLabel>("inStop").text(), QStringLiteral("68.6 lb"));

    checkInFrom("A105", "47.9 lb", "51.9 lb", "HARBOR/DOCK-1");
    EXPECT_TRUE(has("inFindings", "contents.mixed"));
    checkInFrom("A103", "31.6 lb", "45 lb", "HARBOR/DOCK-1");
    EXPECT_TRUE(has("inFindings", "fill.overfilled"));

    // What a gauge shows is answered before anything is written: 1.53 MPa is far above R-22 at 70 °F.
    type("inSerial", "A103");
    the<QComboBox>("inWhat").setCurrentIndex(6); // only weighed
    type("inAfter", "45 lb");
    type("inPressure", "222 psig");
    EXPECT_NE(the<QLabel>("inProblem").text(), QString()) << "the temperature is missing";
    type("inTemperature", "70 F");
    EXPECT_TRUE(has("inFindings", "identity.not-at-rest"));
    for (const char* field : {"inPressure", "inTemperature", "inAfter", "inSerial"}) {
        type(field, "");
    }
    the<QComboBox>("inWhat").setCurrentIndex(0);

    // The remedy begins on Today and proposes A107.
    window().openPlace(QStringLiteral("today"));
    click("act:cylinder:A103");
    EXPECT_EQ(the<QLineEdit>("decantTo").text(), QStringLiteral("A107"));
    type("decantMass", "3.2 lb");
    click("decantRecord");
    EXPECT_EQ(net("A103"), "24.8 lb");
    EXPECT_TRUE(card(shop(), "A103").value().findings.empty());

    // Undo is a reversing entry.
    QTest::keyClick(&window(), Qt::Key_Z, Qt::ControlModifier);
    QApplication::processEvents();
    EXPECT_EQ(net("A103"), "28.0 lb");
}

TEST_F(WeekInTheWindow, ABackdatedTicketMovesTheBooks) {
    checkInFrom("A102", "28.1 lb", "59.6 lb", "ST-ALDER/RTU-3");
    setTime("2026-09-16T15:00:00Z");
    emit window().desk().errand(Errand::checkIn, QStringLiteral("A102"));
    the<QComboBox>("inWhat").setCurrentIndex(1);
    choose("inSystem", "ST-ALDER/GYM-1");
    type("inBefore", "59.6 lb");
    type("inAfter", "57.6 lb");
    type("inOccurred", "2026-09-15 14:00");
    click("inRecord");
    EXPECT_EQ(net("A102"), "29.5 lb");
}

// A103 and A107 hold R-22 of one owner; A105 is R-410A with R-22 on top.
TEST_F(WeekInTheWindow, TheBestBatchIsTickedByTheTermsOfItsReclaimer) {
    checkInFrom("A102", "28.1 lb", "49.9 lb", "ST-ALDER/RTU-3");
    checkInFrom("A105", "47.9 lb", "51.9 lb", "HARBOR/DOCK-1");
    checkInFrom("A107", "16.8 lb", "20 lb", "HARBOR/DOCK-1");
    window().openPlace(QStringLiteral("returns"));
    auto& said = the<QLabel>("batchProposal");
    EXPECT_TRUE(said.isHidden());
    choose("batchReclaimer", "Cape Reclaim");
    scan("A105"); // the proposal unticks it
    click("batchPropose");
    EXPECT_TRUE(said.isVisible());
    EXPECT_TRUE(the<QLabel>("batchSum").text().startsWith(QStringLiteral("3 chosen")))
        << utf8(the<QLabel>("batchSum").text());
    EXPECT_TRUE(said.text().contains(QStringLiteral("3.2 lb from A107 into A103"))) << utf8(said.text());
    EXPECT_TRUE(said.text().contains(QStringLiteral("mixed gas is not known"))) << utf8(said.text());
    EXPECT_FALSE(said.text().contains(QStringLiteral("flammable"))); // R-410A with R-22 goes as 2.2
    AcceptanceTerms terms;
    ASSERT_TRUE(readTerm(shop(), "accept", "mixed=taken", terms));
    ASSERT_TRUE(readTerm(shop(), "minimum", "500 lb", terms));
    ASSERT_TRUE(setTerms(shop(), "Cape Reclaim", terms).ok());
    click("batchPropose");
    EXPECT_TRUE(the<QLabel>("batchSum").text().startsWith(QStringLiteral("4 chosen")))
        << utf8(the<QLabel>("batchSum").text());
    EXPECT_TRUE(said.text().contains(QStringLiteral("below the 500.0 lb"))) << utf8(said.text());
    click("batchPrepare");
    EXPECT_TRUE(said.isHidden());
    EXPECT_EQ(batches(shop()).value().front().lines.size(), 4U);
}

TEST_F(WeekInTheWindow, PreparesShipsReceivesAndSettlesABatch) {
    checkInFrom("A102", "28.1 lb", "49.9 lb", "ST-ALDER/RTU-3");
    window().openPlace(QStringLiteral("returns"));
    choose("batchReclaimer", "Cape Reclaim");
    scan("A102");
    scan("A103");
    click("batchPrepare");
    const QString name = qt(batches(shop()).value().front().name);
    auto& page = dynamic_cast<ReturnsPage&>(*window().page(QStringLiteral("returns")));
    ASSERT_TRUE(page.savePdf(qt(file("manifest.pdf"))));
    EXPECT_GT(std::filesystem::file_size(file("manifest.pdf")), 5'000U);
    questions::queueAnswer(QStringLiteral("own van"));
    click("batchShip");
    EXPECT_EQ(card(shop(), "A102").value().state.condition, Condition::away);
    // The dialog is modal: a person types while it is open.
    QTimer::singleShot(0, [this] {
        type("receiptReference", "CR-8841");
        type("receiptGross:A102", "49.1 lb");
        type("receiptGross:A103", "31.6 lb");
        auto& table = the<QTableWidget>("receiptTable");
        const int row = table.item(0, 0)->text() == QStringLiteral("A102") ? 0 : 1;
        EXPECT_TRUE(table.item(row, 5)->text().startsWith(QStringLiteral("-0.8 lb"))); // 21.0 against 21.8
        click("receiptEnter");
    });
    click("batchReceive");
    EXPECT_EQ(batch(shop(), utf8(name)).value().reference, "CR-8841");
    QTimer::singleShot(0, [this] {
        the<QComboBox>("settleFate:A103").setCurrentIndex(1); // stays with the reclaimer
        type("settleSerial:A103", "A201");
        type("settleSpec:A103", "DOT-4BX400");
        type("settleCapacity:A103", "26.2 lb");
        type("settleTare:A103", "16.9 lb");
        type("settleMade:A103", "2025-01");
        questions::queueAnswer(std::nullopt); // the notice is closed
        click("settleEnter");
        EXPECT_TRUE(questions::lastTold().contains(QStringLiteral("DOT-4BX400"))) << "a mark that cannot be";
        type("settleSpec:A103", "DOT-4BA400");
        click("settleEnter");
    });
    click("batchSettle");
    EXPECT_EQ(batch(shop(), utf8(name)).value().status, "settled");
    EXPECT_EQ(card(shop(), "A102").value().state.condition, Condition::serviceable);
    EXPECT_EQ(card(shop(), "A103").value().state.condition, Condition::retired);
    EXPECT_EQ(card(shop(), "A201").value().state.plate.tare.poundsText(), "16.9 lb");
    EXPECT_TRUE(shop().store().verify().value().problems.empty());
}

TEST_F(WeekInTheWindow, AnswersTheAuditor) {
    checkInFrom("A102", "28.1 lb", "59.9 lb", "ST-ALDER/RTU-3");
    emit window().desk().errand(Errand::checkIn, QStringLiteral("A102"));
    the<QComboBox>("inWhat").setCurrentIndex(1);
    choose("inSystem", "ST-ALDER/GYM-1");
    type("inAfter", "49.9 lb");
    click("inRecord");
    window().openPlace(QStringLiteral("books"));
    the<QComboBox>("bookLot").setCurrentIndex(0);
    click("bookAsk");
    EXPECT_NE(the<QLabel>("bookSentence").text().indexOf(QStringLiteral("31.8 lb")), -1);
    EXPECT_EQ(the<QTableWidget>("bookTable").rowCount(), 2);
    EXPECT_EQ(the<QTableWidget>("bookEntries").rowCount(), 2);
    EXPECT_NE(the<QLabel>("bookHead").text().indexOf(qt(shop().store().headDigest())), -1);

    // As the books stood on Monday evening: that head, not the one of now.
    const auto monday = shop().store().headSeq();
    const QString then = qt(shop().store().headDigest());
    setTime("2026-09-15T15:00:00Z");
    emit window().desk().errand(Errand::checkIn, QStringLiteral("A103"));
    the<QComboBox>("inWhat").setCurrentIndex(6); // only weighed
    type("inAfter", "31.6 lb");
    click("inRecord");
    ASSERT_GT(shop().store().headSeq(), monday);
    window().openPlace(QStringLiteral("books"));
    type("bookAsOf", "2026-09-14");
    for (const int question : {0, 2, 3}) {
        the<QComboBox>("bookQuestion").setCurrentIndex(question);
        type("bookCylinder", "A102");
        click("bookAsk");
        EXPECT_NE(the<QLabel>("bookHead").text().indexOf(then), -1) << question;
    }
    type("bookAsOf", "");
    the<QComboBox>("bookQuestion").setCurrentIndex(1);
    scan("A105");
    EXPECT_NE(the<QLabel>("bookSentence").text().indexOf(QStringLiteral("Brightwater Grocers")), -1);
    the<QComboBox>("bookQuestion").setCurrentIndex(3);
    click("bookAsk");
    EXPECT_EQ(the<QTableWidget>("bookTable").rowCount(), 2); // R-22 and R-410A
    click("bookVerify");
    EXPECT_NE(the<QLabel>("bookSentence").text().indexOf(QStringLiteral("sound")), -1);
}

// Records of appliances above 5 and below 50 lb that are disposed of: 40 CFR 82.156.
TEST_F(WeekInTheWindow, EquipmentThatIsTakenOutOfUseIsOnRecord) {
    window().openPlace(QStringLiteral("jobs"));
    emit window().desk().errand(Errand::checkIn, QStringLiteral("A102"));
    the<QComboBox>("inWhat").setCurrentIndex(7); // recovered, the system goes
    choose("inSystem", "ST-ALDER/GYM-1");        // full charge 18 lb
    type("inBefore", "28.1 lb");
    type("inAfter", "45.1 lb");
    click("inRecord");
    const auto month = disposals(shop(), MonthYear::parse("2026-09").value());
    ASSERT_TRUE(month) << month.error().text();
    ASSERT_EQ(month.value().appliances.size(), 1U);
    EXPECT_EQ(month.value().appliances.front().system, "ST-ALDER/GYM-1");
    EXPECT_TRUE(month.value().appliances.front().counted);
    EXPECT_EQ(month.value().totals.at("R-410A").poundsText(), "17.0 lb");
}
