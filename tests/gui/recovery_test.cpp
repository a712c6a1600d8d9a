// Recovery machines, the level reached, and a finding's rule in the rulebook, by keyboard and mouse. Levels:
// 40 CFR 82.156(a) Table 1; what a machine is rated and cleared for: common practice.
#include "tests/gui/support/gui_shop.h"

#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QTabWidget>
#include <QTableWidget>
#include <QToolButton>

#include "core/shop/machines.h"
#include "tests/support/week_cylinders.h"
#include "ui/desk.h"
#include "ui/finding_view.h"
#include "ui/kit.h"
#include "ui/names_dialog.h"
#include "ui/questions.h"
#include "ui/register_dialog.h"
#include "ui/rulebook_window.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class RecoveryTest : public GuiTest {
protected:
    void enterMachine(const char* name, std::optional<bool> rated) {
        Machine machine;
        machine.name = name;
        machine.made = Date::parse("2019-05-20").value();
        machine.flammableRated = rated;
        ASSERT_TRUE(shop().record({draftOf(shop(), machine)}).ok());
        emit window().desk().changed();
        QApplication::processEvents();
    }
    void openTab(int tab) {
        window().openPlace(QStringLiteral("jobs"));
        the<QTabWidget>("jobsTabs").setCurrentIndex(tab);
        QApplication::processEvents();
    }
    FindingCard* cardOf(const char* view, const QString& rule) {
        for (FindingCard* card : the<FindingView>(view).cards()) {
            if (qt(card->finding().rule) == rule) {
                return card;
            }
        }
        return nullptr;
    }
};

} // namespace

TEST_F(RecoveryTest, AMachineIsTypedIntoTheEmptyLineAndTakenOutOfUse) {
    {
        NamesDialog names(window().desk(), &window());
        names.show();
        auto& list = the<QTableWidget>("namesMachines");
        ASSERT_EQ(list.rowCount(), 1);
        list.item(0, 0)->setText(QStringLiteral("RM-1"));
        list.item(0, 1)->setText(QStringLiteral("88-4711"));
        list.item(0, 2)->setText(QStringLiteral("2019-05-20"));
        list.item(0, 3)->setText(QStringLiteral("perhaps"));
        list.item(0, 4)->setText(QStringLiteral("high, medium"));
        const auto before = shop().store().headSeq();
        questions::queueAnswer(std::nullopt);
        click("namesEnter");
        EXPECT_EQ(shop().store().headSeq(), before) << "neither yes nor no";
        list.item(0, 3)->setText(QStringLiteral("no"));
        list.item(0, 4)->setText(QStringLiteral("high, tall"));
        questions::queueAnswer(std::nullopt);
        click("namesEnter");
        EXPECT_EQ(shop().store().headSeq(), before) << "no kind of appliance";
        list.item(0, 4)->setText(QStringLiteral("high, medium"));
        click("namesEnter");
    }
    const Machine machine = machineNamed(shop(), "RM-1").value();
    EXPECT_EQ(machine.makerSerial, "88-4711");
    EXPECT_EQ(machine.made->text(), "2019-05-20");
    EXPECT_EQ(machine.flammableRated, std::optional(false));
    EXPECT_EQ(machine.certifiedFor, (std::vector<std::string>{"high", "medium"}));
    EXPECT_TRUE(machine.active);
    NamesDialog again(window().desk(), &window());
    again.show();
    auto& list = *again.findChild<QTableWidget*>(QStringLiteral("namesMachines"));
    ASSERT_EQ(list.rowCount(), 2);
    list.item(0, 6)->setCheckState(Qt::Unchecked);
    click("namesEnter");
    EXPECT_FALSE(machineNamed(shop(), "RM-1").value().active);
    again.close();
    openTab(1);
    EXPECT_EQ(the<QComboBox>("inMachine").count(), 1) << "only the blank one";
}

// What it took last is emptied in its line once the machine was cleared; it is not typed.
TEST_F(RecoveryTest, AMachineThatWasClearedIsSaidSoInItsLine) {
    enterMachine("RM-1", false);
    CheckIn facts;
    facts.serial = "A102";
    facts.moved = Mass::parse("3 lb").value();
    facts.from = "system:ST-ALDER/RTU-3";
    facts.machine = "RM-1";
    ASSERT_TRUE(checkIn(shop(), facts).ok());
    NamesDialog names(window().desk(), &window());
    names.show();
    auto& list = *names.findChild<QTableWidget*>(QStringLiteral("namesMachines"));
    ASSERT_EQ(list.item(0, 7)->text(), QStringLiteral("R-410A"));
    const auto before = shop().store().headSeq();
    list.item(0, 7)->setText(QStringLiteral("R-22"));
    questions::queueAnswer(std::nullopt);
    click("namesEnter");
    EXPECT_EQ(shop().store().headSeq(), before) << "it is known from the books";
    list.item(0, 7)->setText({});
    click("namesEnter");
    EXPECT_EQ(lastThrough(shop(), "RM-1", shop().now()).value(), "");
}

TEST_F(RecoveryTest, TheLevelAskedForStandsBesideTheFieldAndTooLittleIsRecorded) {
    enterMachine("RM-1", false);
    openTab(1);
    type("inSerial", "A107");
    choose("inSystem", "HARBOR/DOCK-1");
    EXPECT_TRUE(the<QLabel>("inLevelAsked").text().contains(QStringLiteral("0 inHg of vacuum")))
        << utf8(the<QLabel>("inLevelAsked").text());
    EXPECT_TRUE(the<QLabel>("inLevelAsked").text().contains(QStringLiteral("40 CFR 82.156(a) Table 1")));
    choose("inMachine", "RM-1");
    type("inReached", "deep");
    type("inAfter", "20 lb");
    EXPECT_TRUE(the<QLabel>("inProblem").text().contains(QStringLiteral("Level reached: 'deep'")))
        << utf8(the<QLabel>("inProblem").text());
    type("inReached", "5 psig");
    EXPECT_TRUE(the<QLabel>("inProblem").text().isEmpty());
    FindingCard* level = cardOf("inFindings", QStringLiteral("release.evacuation"));
    ASSERT_NE(level, nullptr);
    EXPECT_EQ(level->finding().severity, Severity::refusal);
    click("inRecord");
    EXPECT_EQ(net("A107"), "3.2 lb");
    const auto entries = shop().store().entriesAbout("machine:RM-1").value();
    EXPECT_EQ(entries.back().body["reached"], "5 psig");
    EXPECT_TRUE(the<QLineEdit>("inReached").text().isEmpty()) << "the next cylinder has its own";
    the<QComboBox>("inWhat").setCurrentIndex(6); // only weighed
    EXPECT_FALSE(the<QLineEdit>("inReached").isVisibleTo(&window()));
}

TEST_F(RecoveryTest, AMachineThatIsNotRatedRefusesThePlanAndAnotherGasOnlyWarns) {
    for (const Draft& draft : draftsOf(shop(), System{"LOFT", "HP-1", "", "R-32", lb("6"), ""})) {
        ASSERT_TRUE(shop().record({draft}).ok());
    }
    enterMachine("RM-1", false);
    openTab(0);
    choose("outPerson", "JULES ARBOR");
    choose("outSystem", "LOFT/HP-1");
    scan("A107");
    EXPECT_TRUE(the<QPushButton>("outRecord").isEnabled())
        << utf8(the<QLabel>("outProblem").text())
        << the<FindingView>("outFindings").cards().front()->finding().headline;
    EXPECT_NE(cardOf("outFindings", QStringLiteral("release.evacuation")), nullptr);
    choose("outMachine", "RM-1");
    EXPECT_FALSE(the<QPushButton>("outRecord").isEnabled());
    EXPECT_NE(cardOf("outFindings", QStringLiteral("machine.flammable")), nullptr);
    choose("outSystem", "ST-ALDER/RTU-3");
    EXPECT_TRUE(the<QPushButton>("outRecord").isEnabled());
    click("outRecord");
    const auto entries = shop().store().entriesAbout("machine:RM-1").value();
    EXPECT_EQ(entries.back().kind, EntryKind::handedOut);
}

TEST_F(RecoveryTest, TheRuleOfAFindingOpensAtItsRow) {
    openTab(0);
    choose("outPerson", "JULES ARBOR");
    choose("outSystem", "HARBOR/DOCK-1");
    scan("A107");
    FindingCard* level = cardOf("outFindings", QStringLiteral("release.evacuation"));
    ASSERT_NE(level, nullptr);
    ASSERT_NE(level->ruleButton(), nullptr);
    QTest::mouseClick(level->ruleButton(), Qt::LeftButton);
    QApplication::processEvents();
    auto& rules = the<RulebookWindow>("rulebookWindow");
    EXPECT_TRUE(rules.isVisible());
    const QString row = the<QLabel>("rulebookRow").text();
    EXPECT_TRUE(row.contains(QStringLiteral("40 CFR 82.156(a) Table 1"))) << utf8(row);
    EXPECT_EQ(the<QLabel>("rulebookRowTitle").text(), QStringLiteral("high"));
    auto& rows = the<QTableWidget>("rulebookRows");
    bool below200 = false;
    for (int column = 0; column < rows.columnCount(); ++column) {
        below200 =
            below200 || (rows.horizontalHeaderItem(column)->text() == QStringLiteral("charge below lb") &&
                         rows.item(rows.currentRow(), column)->text() == QStringLiteral("200"));
    }
    EXPECT_TRUE(below200) << "60 lb are below 200 lb: not the row for more";
    // A second finding turns to its own row in the same window.
    EXPECT_TRUE(rules.showFinding([] {
        Finding finding;
        finding.rule = "contents.clear";
        finding.edition = "us 2021-01";
        return finding;
    }()));
    EXPECT_EQ(the<QLabel>("rulebookRowTitle").text(), QStringLiteral("contents.clear"));
    rules.close();
}

TEST_F(RecoveryTest, TheUnderlinedLetterOfTheWorstFindingOpensItsRule) {
    enterMachine("RM-1", false);
    openTab(0);
    choose("outPerson", "JULES ARBOR");
    choose("outSystem", "HARBOR/DOCK-1");
    scan("A107");
    int letters = 0;
    for (const FindingCard* card : the<FindingView>("outFindings").cards()) {
        letters +=
            card->ruleButton() != nullptr && !QKeySequence::mnemonic(card->ruleButton()->text()).isEmpty();
    }
    EXPECT_EQ(letters, 1);
    window().activateWindow();
    QTest::keyClick(&window(), Qt::Key_U, Qt::AltModifier);
    // The button is seen to go down before it comes up.
    ASSERT_TRUE(QTest::qWaitFor([this] { return window().findChild<RulebookWindow*>() != nullptr; }));
    EXPECT_TRUE(the<RulebookWindow>("rulebookWindow").isVisible());
    the<RulebookWindow>("rulebookWindow").close();
}

TEST_F(RecoveryTest, ACylinderIsRegisteredWithWhatItMayBeUsedFor) {
    RegisterDialog dialog(window().desk(), &window());
    dialog.show();
    type("register:serial", "F1");
    type("register:specification", "DOT-4BA400");
    type("register:capacity", "47.7 lb");
    type("register:tare", "27.0 lb");
    type("register:made", "2024-10");
    choose("registerFlammable", "yes");
    the<QCheckBox>("registerBurnOut").click();
    click("registerRecord");
    const CylinderState state = card(shop(), "F1").value().state;
    EXPECT_EQ(state.plate.flammableRated, std::optional(true));
    EXPECT_TRUE(state.plate.burnOut);
}
