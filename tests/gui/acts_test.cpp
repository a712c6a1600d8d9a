// What is done to one cylinder from its card: weighing, tests, inspections, tares, reversals.
#include "tests/gui/support/gui_shop.h"

#include <algorithm>

#include <QAction>
#include <QComboBox>
#include <QDialog>
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

// A leak is taken back only where it is said that it was at a fitting; the choice says so.
TEST_F(ActsTest, ALeakIsTakenBackByWhoSaysWhereItWas) {
    ASSERT_TRUE(inspect(shop(), "A101", "leaking", "bubbles").ok());
    scan("A101");
    QTimer::singleShot(0, [this] {
        auto& found = the<QComboBox>("fact:result");
        EXPECT_EQ(found.currentData().toString(), QStringLiteral("leaking"))
            << "nothing is taken back unasked";
        EXPECT_EQ(found.findData(QStringLiteral("sound")), -1);
        found.setFocus();
        QTest::keyClicks(&found, "sound");
        type("fact:note", "new stem packing");
        click("factsEnter");
    });
    the<QAction>("act:inspect").trigger();
    EXPECT_EQ(card(shop(), "A101").value().state.condition, Condition::serviceable);
}

// The purge decides how an empty that held a flammable gas travels; the cautions stand where it is entered.
TEST_F(ActsTest, AnEvacuationSaysWithWhatItWasPurged) {
    scan("A101");
    QTimer::singleShot(0, [this] {
        auto& gas = the<QComboBox>("fact:purgedWith");
        EXPECT_EQ(gas.currentData().toString(), QString()) << "nothing is presumed";
        const auto labels = the<QDialog>("factsDialog").findChildren<QLabel*>();
        EXPECT_TRUE(std::any_of(labels.begin(), labels.end(), [](const QLabel* label) {
            return label->text().contains(QLatin1String("never with oxygen"));
        }));
        gas.setFocus();
        QTest::keyClicks(&gas, "nit");
        type("fact:note", "500 microns");
        click("factsEnter");
    });
    the<QAction>("act:evacuate").trigger();
    const CylinderState state = card(shop(), "A101").value().state;
    EXPECT_TRUE(state.evacuated);
    EXPECT_EQ(state.purgedWith, "nitrogen");
}

// 14 September: ten days later six are beyond the free ones, 6 x 0.50 = 3.00.
TEST_F(ActsTest, ADepositIsEnteredFromTheCardAndRentalStandsThereOnceItRuns) {
    ASSERT_TRUE(shop().record({draftOf(shop(), Party{"supplier", "Nordgas", "", ""})}).ok());
    scan("A101");
    QTimer::singleShot(0, [this] {
        type("fact:amount", "150");
        EXPECT_FALSE(the<QPushButton>("factsEnter").isEnabled()) << "no currency";
        type("fact:currency", "usd");
        type("fact:rental", "0.50");
        type("fact:free", "4");
        click("factsEnter");
    });
    the<QAction>("act:deposit").trigger();
    QApplication::processEvents();
    EXPECT_TRUE(the<FindingCard>("finding:deposit.out").isVisible());
    setTime("2026-09-24T13:00:00Z");
    window().openPlace(QStringLiteral("today"));
    EXPECT_TRUE(the<QPushButton>("act:cylinder:A101").isEnabled());
    scan("A101");
    const auto findings = card(shop(), "A101").value().findings;
    ASSERT_FALSE(findings.empty());
    EXPECT_EQ(findings.back().headline,
              "Belongs to Nordgas since 2026-09-14: rental for 6 of 10 days, 3.00 USD so far.");
    QTimer::singleShot(0, [this] {
        type("fact:until", "2026-09-24");
        click("factsEnter");
    });
    the<QAction>("act:deposit").trigger();
    const Card after = card(shop(), "A101").value();
    for (const Finding& finding : after.findings) {
        EXPECT_FALSE(finding.rule.starts_with("deposit.")) << finding.headline;
    }
    EXPECT_NE(after.history.front().sentence.find("went back on 2026-09-24"), std::string::npos)
        << after.history.front().sentence;
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

// 279 lb of tare are ten times what is usual for 47.7 lb of water (common practice): asked, and entered only
// with a yes.
TEST_F(ActsTest, ATareThatIsOddWaitsForAYes) {
    scan("A101");
    const Mass before = card(shop(), "A101").value().state.plate.tare;
    for (const bool yes : {false, true}) {
        questions::queueAnswer(QStringLiteral("tare=279 lb\nreason=restamped"));
        questions::queueAnswer(yes ? std::optional<QString>(QString()) : std::nullopt);
        the<QAction>("act:tare").trigger();
        QApplication::processEvents();
        EXPECT_TRUE(questions::lastTold().contains(QStringLiteral("27.9 lb looks right")))
            << questions::lastTold().toStdString();
        EXPECT_EQ(card(shop(), "A101").value().state.plate.tare == before, !yes);
    }
    EXPECT_TRUE(the<FindingCard>("finding:marks.tare-unusual").isVisible());
}
