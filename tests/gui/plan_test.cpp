// A plan in the window: the method of recovery with its steps, room to spare, and why any cylinder goes or
// stays, by mouse and by keyboard. Push-pull above 10 lb, a cylinder that starts with at most 5 lb: common
// practice of the trade, from memory, as the table methods carries it. Figures: the week at the counter, in
// which A105 has 40.5 - 20.0 lb of room.
#include "tests/gui/support/gui_shop.h"

#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTableWidget>

#include "ui/desk.h"
#include "ui/finding_view.h"
#include "ui/kit.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class PlanInTheWindow : public GuiTest {
protected:
    void SetUp() override {
        GuiTest::SetUp();
        window().activateWindow();
        QApplication::setActiveWindow(&window());
        window().openPlace(QStringLiteral("jobs"));
        QApplication::processEvents();
    }
    static void press(Qt::Key key, Qt::KeyboardModifiers with = Qt::NoModifier) {
        QTest::keyClick(QApplication::focusWidget(), key, with);
        QApplication::processEvents();
    }
    QString proposed(int row = 0, int column = 0) {
        const auto* item = the<QTableWidget>("outProposal").item(row, column);
        return item == nullptr ? QString() : item->text();
    }
    FindingCard* cardOf(const char* view, const char* rule) {
        for (FindingCard* card : the<FindingView>(view).cards()) {
            if (card->finding().rule == rule) {
                return card;
            }
        }
        return nullptr;
    }
};

} // namespace

TEST_F(PlanInTheWindow, TheMethodIsAskedAndItsStepsAreShownAsPractice) {
    choose("outSystem", "BRIGHTWATER/STORE-2");
    type("outExpected", "15 lb");
    EXPECT_EQ(proposed(), QStringLiteral("A105"));
    EXPECT_EQ(the<FindingView>("outPlanFindings").count(), 0) << "no method, nothing asked of it";
    the<QComboBox>("outMethod").setCurrentIndex(3); // push-pull
    EXPECT_EQ(proposed(), QStringLiteral("A107"));
    const FindingCard* steps = cardOf("outPlanFindings", "plan.method");
    ASSERT_NE(steps, nullptr);
    QApplication::processEvents();
    bool read = false;
    for (const QLabel* label : steps->findChildren<QLabel*>()) {
        read =
            read || (label->isVisibleTo(steps) && label->text().contains(QStringLiteral("4. Cross-charge")));
    }
    EXPECT_TRUE(read) << "the steps stand open";
    EXPECT_EQ(steps->finding().firmness, Firmness::practice);
    const FindingCard* watched = cardOf("outPlanFindings", "plan.overfill-sensor");
    ASSERT_NE(watched, nullptr);
    EXPECT_EQ(watched->finding().subject, "cylinder:A107");
    // On the list it is told there, and not twice.
    click("outTake");
    EXPECT_EQ(cardOf("outPlanFindings", "plan.overfill-sensor"), nullptr);
    EXPECT_NE(cardOf("outFindings", "plan.overfill-sensor"), nullptr);
    // Whoever scans another is told what speaks against it by that method.
    scan("A105");
    EXPECT_NE(cardOf("outFindings", "plan.push-pull-start"), nullptr);
    EXPECT_FALSE(the<QPushButton>("outRecord").isEnabled());
    the<QComboBox>("outMethod").setCurrentIndex(1); // liquid
    EXPECT_EQ(cardOf("outFindings", "plan.push-pull-start"), nullptr);
}

TEST_F(PlanInTheWindow, APlanThatMustNotGoAheadSoIsNotTaken) {
    System pump{"LOFT", "HP-1", "", "R-410A", lb("14"), "Heat-pump, comfort cooling"};
    ASSERT_TRUE(shop().record(draftsOf(shop(), pump)).ok());
    emit window().desk().changed();
    choose("outSystem", "LOFT/HP-1");
    type("outExpected", "12 lb");
    EXPECT_TRUE(the<QPushButton>("outTake").isEnabled());
    the<QComboBox>("outMethod").setCurrentIndex(3);
    const FindingCard* refused = cardOf("outPlanFindings", "plan.push-pull");
    ASSERT_NE(refused, nullptr);
    EXPECT_EQ(refused->finding().severity, Severity::refusal);
    EXPECT_FALSE(the<QPushButton>("outTake").isEnabled());
    // A method belongs to a recovery.
    the<QComboBox>("outPurpose").setCurrentIndex(1);
    EXPECT_FALSE(the<QComboBox>("outMethod").isEnabled());
    EXPECT_EQ(the<FindingView>("outPlanFindings").count(), 0);
}

TEST_F(PlanInTheWindow, RoomToSpareIsKeptFree) {
    choose("outSystem", "BRIGHTWATER/STORE-2");
    type("outExpected", "18.6 lb");
    type("outMargin", "10 %");
    EXPECT_EQ(proposed(), QStringLiteral("A105")) << "20.46 of 20.5 lb";
    type("outMargin", "12 %");
    EXPECT_NE(proposed(), QStringLiteral("A105")) << "20.832 of 20.5 lb";
    type("outMargin", "some");
    EXPECT_TRUE(the<QLabel>("outProposalNote").text().contains(QStringLiteral("'some' is no margin")))
        << utf8(the<QLabel>("outProposalNote").text());
    EXPECT_EQ(the<QTableWidget>("outProposal").rowCount(), 0);
    EXPECT_FALSE(the<QPushButton>("outTake").isEnabled());
    type("outMargin", "");
    EXPECT_EQ(proposed(), QStringLiteral("A105"));
    click("outClear");
    EXPECT_TRUE(the<QLineEdit>("outMargin").text().isEmpty());
}

TEST_F(PlanInTheWindow, WithoutAMouseFromTheMethodToTheReason) {
    choose("outSystem", "BRIGHTWATER/STORE-2");
    type("outExpected", "15 lb");
    the<QLineEdit>("outExpected").setFocus();
    press(Qt::Key_Tab);
    ASSERT_EQ(QApplication::focusWidget(), &the<QComboBox>("outMethod"));
    press(Qt::Key_P); // push-pull
    EXPECT_EQ(the<QComboBox>("outMethod").currentText(), QStringLiteral("push-pull"));
    press(Qt::Key_Tab);
    ASSERT_EQ(QApplication::focusWidget(), &the<QCheckBox>("outBurnOut"));
    press(Qt::Key_Tab);
    ASSERT_EQ(QApplication::focusWidget(), &the<QLineEdit>("outMargin"));
    QTest::keyClicks(QApplication::focusWidget(), QStringLiteral("1 lb"));
    // By the underlined letter to the field that finds a cylinder, on to the list, down to its row.
    press(Qt::Key_N, Qt::AltModifier);
    ASSERT_EQ(QApplication::focusWidget(), &the<QLineEdit>("outFind"));
    QTest::keyClicks(QApplication::focusWidget(), QStringLiteral("a105"));
    ASSERT_EQ(the<QTableWidget>("outProposal").rowCount(), 1);
    EXPECT_FALSE(the<QLabel>("outWhy").isVisible());
    press(Qt::Key_Tab);
    ASSERT_EQ(QApplication::focusWidget(), &the<QTableWidget>("outProposal"));
    EXPECT_TRUE(the<QLabel>("outWhy").isVisible());
    EXPECT_EQ(the<QLabel>("outWhy").text(),
              QStringLiteral("A105 stays: Holds 20.0 lb: for push-pull it starts with no more than 5.0 lb."));
    type("outFind", "");
    EXPECT_EQ(the<QTableWidget>("outProposal").rowCount(), 7);
    EXPECT_FALSE(the<QLabel>("outWhy").isVisible());
}

TEST_F(PlanInTheWindow, ASmallWindowShowsAllOfIt) {
    choose("outSystem", "BRIGHTWATER/STORE-2");
    type("outExpected", "15 lb");
    the<QComboBox>("outMethod").setCurrentIndex(3);
    window().resize(1000, 700);
    QApplication::processEvents();
    EXPECT_LE(window().height(), 700);
    // Beside the names of the places.
    EXPECT_LE(the<QWidget>("checkOutPanel").minimumSizeHint().width(), 800);
    EXPECT_TRUE(window().rect().contains(
        the<QPushButton>("outRecord")
            .geometry()
            .translated(the<QPushButton>("outRecord").parentWidget()->mapTo(&window(), QPoint()))));
    // What has the focus scrolls into sight.
    the<QLineEdit>("outExpected").setFocus();
    for (const char* name :
         {"outMethod", "outBurnOut", "outMargin", "outAmbient", "outBack", "outOccurred"}) {
        press(Qt::Key_Tab);
        auto& field = the<QWidget>(name);
        EXPECT_TRUE(field.isAncestorOf(QApplication::focusWidget()) || QApplication::focusWidget() == &field)
            << name;
        EXPECT_EQ(field.visibleRegion().boundingRect(), field.rect()) << name;
    }
}

// A105 weighs 27.9 lb empty and holds 20.0 lb: 47.9 lb now, 35.9 lb when 12 lb have gone out.
TEST_F(PlanInTheWindow, AChargeSaysWhereTheScaleStandsAndNoRoom) {
    the<QComboBox>("outPurpose").setCurrentIndex(1);
    choose("outSystem", "BRIGHTWATER/STORE-2");
    type("outExpected", "12 lb");
    EXPECT_EQ(proposed(0, 0), QStringLiteral("A105"));
    EXPECT_EQ(proposed(0, 1), QStringLiteral("20.0 lb"));
    EXPECT_EQ(proposed(0, 2), QStringLiteral("35.9 lb (now 47.9 lb)"));
    EXPECT_EQ(the<QTableWidget>("outProposal").horizontalHeaderItem(2)->text(),
              QStringLiteral("Charged at gross"));
    the<QComboBox>("outPurpose").setCurrentIndex(0);
    EXPECT_EQ(the<QTableWidget>("outProposal").horizontalHeaderItem(2)->text(), QStringLiteral("Stop at"));
}

TEST_F(PlanInTheWindow, ADayThatHasPassedIsRefusedAndTheAmbientIsTold) {
    choose("outSystem", "BRIGHTWATER/STORE-2");
    type("outExpected", "15 lb");
    EXPECT_EQ(proposed(), QStringLiteral("A105"));
    type("outAmbient", "95");
    EXPECT_TRUE(proposed(0, 3).contains(QStringLiteral("at 95 °F"))) << utf8(proposed(0, 3));
    type("outAmbient", "hot");
    EXPECT_TRUE(the<QLabel>("outProposalNote").text().startsWith(QStringLiteral("Ambient: ")));
    type("outAmbient", "");
    type("outBack", "2026-01-31");
    EXPECT_TRUE(proposed().isEmpty()) << utf8(proposed());
    EXPECT_TRUE(the<QLabel>("outProposalNote").text().contains(QStringLiteral("has passed")));
    EXPECT_FALSE(the<QPushButton>("outTake").isEnabled());
}

TEST_F(PlanInTheWindow, UnknownGasHasNoWeightToStopAt) {
    type("outRefrigerant", "unknown");
    type("outExpected", "5 lb");
    EXPECT_FALSE(proposed().isEmpty());
    EXPECT_EQ(proposed(0, 1), QStringLiteral("not known"));
    EXPECT_EQ(proposed(0, 2), QStringLiteral("not known"));
    EXPECT_NE(cardOf("outPlanFindings", "plan.unknown-gas"), nullptr);
}
