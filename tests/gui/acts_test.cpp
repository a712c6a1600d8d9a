// What is done to one cylinder from its card: weighing, tests, inspections, tares, reversals.
#include "tests/gui/support/gui_shop.h"

#include <QAction>
#include <QComboBox>
#include <QLabel>
#include <QPushButton>
#include <QTableWidget>
#include <QTimer>

#include "ui/card_panel.h"
#include "ui/finding_view.h"
#include "ui/questions.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class ActsTest : public GuiTest {};

} // namespace

TEST_F(ActsTest, WeighsAndReversesOnTheCard) {
    scan("A105");
    questions::queueAnswer(QStringLiteral("46.4 lb"));
    the<QAction>("act:weigh").trigger();
    EXPECT_EQ(net("A105"), "18.5 lb");
    EXPECT_EQ(card(shop(), "A105").value().findings.front().rule, "weight.differs");
    questions::queueAnswer(QStringLiteral("a leak at the valve, mended"));
    click("overrule:weight.differs");
    EXPECT_TRUE(card(shop(), "A105").value().findings.empty());
    auto& history = the<QTableWidget>("cardHistory");
    for (int row = 0; row < history.rowCount(); ++row) {
        if (history.item(row, 2)->text().startsWith(QStringLiteral("Weighed"))) {
            history.selectRow(row);
        }
    }
    questions::queueAnswer(QStringLiteral("wrong cylinder on the scale"));
    click("cardReverse");
    EXPECT_EQ(net("A105"), "20.0 lb");
}

TEST_F(ActsTest, EntersWhatAnInspectionFoundAndATareWeighedEmpty) {
    scan("A101");
    QTimer::singleShot(0, [this] {
        auto& found = the<QComboBox>("fact:result");
        found.setFocus();
        QTest::keyClicks(&found, "fire"); // the choice that begins so
        EXPECT_EQ(found.currentData().toString(), QStringLiteral("overheated"));
        type("fact:note", "stood beside the shed that burnt");
        click("factsEnter");
    });
    the<QAction>("act:inspect").trigger();
    EXPECT_EQ(card(shop(), "A101").value().state.condition, Condition::held);
    QApplication::processEvents();
    EXPECT_TRUE(the<FindingCard>("finding:retest.heat").isVisible()) << "the card says so at once";
    QTimer::singleShot(0, [this] {
        type("fact:tare", "25.0 lb");
        auto& from = the<QComboBox>("fact:from");
        from.setFocus();
        QTest::keyClick(&from, Qt::Key_Down);
        type("fact:reason", "weighed evacuated");
        click("factsEnter");
    });
    the<QAction>("act:tare").trigger();
    QApplication::processEvents();
    EXPECT_TRUE(the<FindingCard>("finding:retest.tare-loss").isVisible());
}

TEST_F(ActsTest, EntersATestWithAllThatTheMarkSays) {
    scan("A101");
    QTimer::singleShot(0, [this] {
        EXPECT_FALSE(the<QPushButton>("factsEnter").isEnabled());
        type("fact:month", "13/2026");
        EXPECT_FALSE(the<QPushButton>("factsEnter").isEnabled());
        EXPECT_FALSE(the<QLabel>("factsProblem").text().isEmpty());
        type("fact:month", "9/26");
        type("fact:method", "volumetric");
        type("fact:requalifier", "Z999");
        type("fact:suffix", "E");
        type("fact:tare", "27.2 lb");
        click("factsEnter");
    });
    the<QAction>("act:test").trigger();
    const Nameplate plate = card(shop(), "A101").value().state.plate;
    EXPECT_EQ(plate.lastTest->text(), "2026-09");
    EXPECT_EQ(plate.testMethod, "volumetric");
    EXPECT_EQ(plate.requalifier, "Z999");
    EXPECT_EQ(plate.markSuffix, "E");
    EXPECT_EQ(plate.tare.poundsText(), "27.2 lb");
}

TEST_F(ActsTest, RestatesWhatItMayBeUsedFor) {
    scan("A102");
    QTimer::singleShot(0, [this] {
        type("fact:reason", "seen at the last test");
        EXPECT_FALSE(the<QPushButton>("factsEnter").isEnabled()) << "nothing is restated yet";
        type("fact:life", "some day");
        EXPECT_FALSE(the<QPushButton>("factsEnter").isEnabled());
        type("fact:life", "8/26");
        choose("fact:flammable", "yes");
        click("factsEnter");
    });
    the<QAction>("act:use").trigger();
    const Nameplate plate = card(shop(), "A102").value().state.plate;
    EXPECT_EQ(plate.flammableRated, true);
    EXPECT_FALSE(plate.burnOut);
    ASSERT_TRUE(plate.serviceUntil);
    EXPECT_EQ(plate.serviceUntil->text(), "2026-08");
    QApplication::processEvents();
    EXPECT_TRUE(the<FindingCard>("finding:retest.service-life").isVisible());
}
