// The counter without a mouse: Tab, Enter, Escape, the underlined letters, and a scanner, which types what it
// reads and ends with Enter, wherever the person was.
#include "tests/gui/support/gui_shop.h"

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QMenuBar>
#include <QPushButton>
#include <QTabBar>
#include <QTabWidget>
#include <QTableWidget>

#include <map>

#include "ui/day_dialog.h"
#include "ui/differences_dialog.h"
#include "ui/evidence_dialog.h"
#include "ui/exchange_dialog.h"
#include "ui/finding_view.h"
#include "ui/import_dialog.h"
#include "ui/kit.h"
#include "ui/names_dialog.h"
#include "ui/operators_dialog.h"
#include "ui/parents_dialog.h"
#include "ui/questions.h"
#include "ui/quick_figures.h"
#include "ui/receipt_dialog.h"
#include "ui/register_dialog.h"
#include "ui/rulebook_window.h"
#include "ui/scale_dialog.h"
#include "ui/settings_dialog.h"
#include "ui/sign_in_dialog.h"
#include "ui/terms_dialog.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class KeyboardTest : public GuiTest {
protected:
    void SetUp() override {
        GuiTest::SetUp();
        window().activateWindow();
        QApplication::setActiveWindow(&window());
        QApplication::processEvents();
    }

    /// Presses a key where the focus is.
    static void press(Qt::Key key, Qt::KeyboardModifiers with = Qt::NoModifier) {
        QTest::keyClick(QApplication::focusWidget(), key, with);
        QApplication::processEvents();
    }
    /// As a scanner does: letter after letter to whatever has the focus, then Enter.
    static void scanInto(QWidget* focused, const char* text) {
        focused->setFocus();
        for (const char* letter = text; *letter != '\0'; ++letter) {
            QTest::keyClick(QApplication::focusWidget(), *letter);
        }
        press(Qt::Key_Return);
    }
    [[nodiscard]] static std::string focusName() {
        const QWidget* focused = QApplication::focusWidget();
        for (; focused != nullptr; focused = focused->parentWidget()) {
            if (!focused->objectName().isEmpty() &&
                !focused->objectName().startsWith(QStringLiteral("qt_"))) {
                return utf8(focused->objectName());
            }
        }
        return "nothing";
    }
    /// The underlined letters that can be reached now, with who has them.
    [[nodiscard]] static std::map<QString, QStringList> letters(QWidget& top) {
        std::map<QString, QStringList> letters;
        const auto add = [&](const QString& text, const QWidget& of) {
            const QKeySequence keys = QKeySequence::mnemonic(text);
            if (!keys.isEmpty() && of.isVisibleTo(&top)) {
                letters[keys.toString()].append(text);
            }
        };
        for (const QLabel* label : top.findChildren<QLabel*>()) {
            if (label->buddy() != nullptr) {
                add(label->text(), *label);
            }
        }
        for (const QAbstractButton* button : top.findChildren<QAbstractButton*>()) {
            add(button->text(), *button);
        }
        for (const QTabBar* tabs : top.findChildren<QTabBar*>()) {
            for (int place = 0; place < tabs->count(); ++place) {
                add(tabs->tabText(place), *tabs);
            }
        }
        if (const auto* main = qobject_cast<QMainWindow*>(&top)) {
            for (const QAction* action : main->menuBar()->actions()) {
                add(action->text(), *main->menuBar());
            }
        }
        return letters;
    }
    static void expectNoClash(QWidget& top, const std::string& where) {
        for (const auto& [keys, texts] : letters(top)) {
            EXPECT_EQ(texts.size(), 1) << where << ": " << utf8(keys) << " is " << utf8(texts.join(u", "));
        }
    }
};

} // namespace

TEST_F(KeyboardTest, NoUnderlinedLetterStandsTwice) {
    for (const QString& name : window().placeNames()) {
        window().openPlace(name);
        QApplication::processEvents();
        expectNoClash(window(), utf8(name));
    }
    window().openPlace(QStringLiteral("fleet"));
    scan("A103");
    expectNoClash(window(), "fleet with a card");
    window().openPlace(QStringLiteral("jobs"));
    auto& tabs = the<QTabWidget>("jobsTabs");
    for (int tab = 0; tab < tabs.count(); ++tab) {
        tabs.setCurrentIndex(tab);
        QApplication::processEvents();
        expectNoClash(window(), utf8(tabs.tabText(tab)));
    }
    EvidenceDialog evidence(window().desk(), &window());
    RegisterDialog registering(window().desk(), &window());
    SettingsDialog settings(shop().settings(), QStringLiteral("Settings"), QStringLiteral("Keep"), &window());
    NamesDialog names(window().desk(), &window());
    ImportDialog import(window().desk(), &window());
    QuickFiguresWindow quick(window().desk(), &window());
    RulebookWindow rules(window().desk(), &window());
    OperatorsDialog operators(window().desk(), m_clock, &window());
    ScaleDialog scale(&window());
    SignInDialog asking(shop(), m_clock, SignInDialog::Why::opening, &window());
    SignInDialog locked(shop(), m_clock, SignInDialog::Why::locked, &window());
    ASSERT_TRUE(shop().record({draftOf(shop(), Party{"reclaimer", "Cape Reclaim", "", ""})}).ok());
    TermsDialog terms(window().desk(), QStringLiteral("Cape Reclaim"), &window());
    ReceiptDialog receipt(window().desk(), Batch(), &window());
    DifferencesDialog differences(window().desk(), QStringLiteral("B-1"), &window());
    ParentsDialog parents(window().desk(), Batch(), QStringLiteral("A1"), &window());
    DayDialog day(window().desk(), &window());
    for (QDialog* dialog : std::initializer_list<QDialog*>{
             &day, &registering, &settings, &names, &import, &quick, &rules, &operators, &scale, &asking,
             &locked, &evidence, &terms, &receipt, &differences, &parents}) {
        dialog->show();
        expectNoClash(*dialog, utf8(dialog->objectName()));
        dialog->close();
    }
    ExchangeDialog exchange(window().desk(), QStringLiteral("A103"), &window());
    exchange.show();
    auto& pages = *exchange.findChild<QTabWidget*>(QStringLiteral("registerPages"));
    for (int page = 0; page < pages.count(); ++page) {
        pages.setCurrentIndex(page);
        QApplication::processEvents();
        expectNoClash(exchange, utf8(pages.tabText(page)));
    }
}

TEST_F(KeyboardTest, TheUnderlinedLettersLeadToTheirFields) {
    window().openPlace(QStringLiteral("jobs"));
    auto& tabs = the<QTabWidget>("jobsTabs");
    tabs.setCurrentIndex(1); // check in
    QApplication::processEvents();
    for (const QLabel* label : tabs.currentWidget()->findChildren<QLabel*>()) {
        if (label->buddy() == nullptr || !label->buddy()->isEnabled()) {
            continue;
        }
        const QKeySequence keys = QKeySequence::mnemonic(label->text());
        ASSERT_FALSE(keys.isEmpty()) << utf8(label->text());
        the<QLineEdit>("scanField").setFocus();
        QTest::keyClick(&window(), static_cast<Qt::Key>(keys[0].key()), Qt::AltModifier);
        QApplication::processEvents();
        const QWidget* focused = QApplication::focusWidget();
        EXPECT_TRUE(focused != nullptr &&
                    (focused == label->buddy() || label->buddy()->isAncestorOf(focused)))
            << utf8(label->text()) << " leads to " << focusName();
    }
}

TEST_F(KeyboardTest, TabGoesThroughTheFieldsAsTheyStand) {
    const auto expectDown = [&](const char* first, std::vector<std::string> names) {
        the<QWidget>(first).setFocus();
        for (const std::string& name : names) {
            press(Qt::Key_Tab);
            EXPECT_EQ(focusName(), name);
        }
    };
    window().openPlace(QStringLiteral("jobs"));
    expectDown("outPerson",
               {"outJob", "outPurpose", "outSystem", "outRefrigerant", "outMachine", "outExpected",
                "outMethod", "outBurnOut", "outMargin", "outAmbient", "outBack", "outOccurred"});
    the<QTabWidget>("jobsTabs").setCurrentIndex(1);
    expectDown("inSerial", {"inWhat", "inSystem", "inBefore", "inAfter", "inRefrigerant", "inMachine",
                            "inReached", "inWork", "inPerson", "inJob", "inOccurred", "inPlace", "inNote",
                            "inPressure", "inTemperature", "inBack"});
    the<QTabWidget>("jobsTabs").setCurrentIndex(2);
    expectDown("decantFrom", {"decantTo", "decantMass", "decantOccurred", "decantNote"});
}

TEST_F(KeyboardTest, AScannerIsHeardWhereverThePersonWas) {
    // On a button of the rail, on Today: the card opens.
    scanInto(&the<QAbstractButton>("place:today"), "A103");
    EXPECT_EQ(the<QLabel>("cardTitle").text(), QStringLiteral("A103"));
    // In a table of the check-out: the list grows.
    window().openPlace(QStringLiteral("jobs"));
    scanInto(&the<QTableWidget>("outList"), "A102");
    scanInto(&the<QTableWidget>("outProposal"), "MORGAN VALE");
    EXPECT_EQ(the<QTableWidget>("outList").rowCount(), 1);
    EXPECT_EQ(the<QComboBox>("outPerson").currentText(), QStringLiteral("MORGAN VALE"));
    // On a button: its letters do not press it, but Enter does.
    the<QComboBox>("outPurpose").setCurrentIndex(2); // only to carry
    scanInto(&the<QPushButton>("outRecord"), "A107");
    EXPECT_EQ(the<QTableWidget>("outList").rowCount(), 2);
    EXPECT_TRUE(card(shop(), "A102").value().state.holder.empty());
    the<QPushButton>("outRecord").setFocus();
    press(Qt::Key_Return);
    EXPECT_EQ(card(shop(), "A102").value().state.holder, "MORGAN VALE");
    EXPECT_EQ(card(shop(), "A107").value().state.holder, "MORGAN VALE");
}

TEST_F(KeyboardTest, EnterInAFieldOfTheCheckOutHandsNothingOut) {
    window().openPlace(QStringLiteral("jobs"));
    the<QComboBox>("outPurpose").setCurrentIndex(2); // only to carry
    scan("A102");
    scan("MORGAN VALE");
    type("outJob", "J-77");
    press(Qt::Key_Return);
    EXPECT_EQ(focusName(), "scanField");
    EXPECT_TRUE(card(shop(), "A102").value().state.holder.empty());
    press(Qt::Key_Return);
    EXPECT_EQ(card(shop(), "A102").value().state.holder, "MORGAN VALE");
    EXPECT_EQ(card(shop(), "A102").value().state.job, "J-77");
}

// Step 5 of the week: 28.1 lb before, 59.6 after, 31.5 lb inside.
TEST_F(KeyboardTest, ChecksInWithAScannerAndTheKeysOfTheWeights) {
    window().openPlace(QStringLiteral("jobs"));
    the<QTabWidget>("jobsTabs").setCurrentIndex(1);
    scan("A102");
    EXPECT_EQ(focusName(), "inAfter");
    // The label of the system, scanned where the weight was awaited, is no weight.
    scanInto(&the<QLineEdit>("inAfter"), "ST-ALDER/RTU-3");
    EXPECT_EQ(the<QComboBox>("inSystem").currentData().toString(), QStringLiteral("ST-ALDER/RTU-3"));
    EXPECT_TRUE(the<QLineEdit>("inAfter").text().isEmpty());
    type("inBefore", "28.1");
    press(Qt::Key_Return);
    EXPECT_EQ(focusName(), "inAfter");
    QTest::keyClicks(QApplication::focusWidget(), QStringLiteral("59.6"));
    press(Qt::Key_Return);
    EXPECT_EQ(net("A102"), "31.5 lb");
    // A serial typed into its own field leads on, and records nothing.
    const auto before = shop().store().headSeq();
    type("inSerial", "a103");
    press(Qt::Key_Return);
    EXPECT_EQ(the<QLineEdit>("inSerial").text(), QStringLiteral("A103"));
    EXPECT_EQ(focusName(), "inAfter");
    press(Qt::Key_Return); // nothing was weighed
    EXPECT_EQ(shop().store().headSeq(), before);
    // What is neither weight nor name stays to be mended.
    scanInto(&the<QLineEdit>("inAfter"), "rubbish");
    EXPECT_EQ(the<QLineEdit>("inAfter").text(), QStringLiteral("rubbish"));
    EXPECT_EQ(shop().store().headSeq(), before);
}

TEST_F(KeyboardTest, DecantsByKeys) {
    window().openPlace(QStringLiteral("jobs"));
    the<QTabWidget>("jobsTabs").setCurrentIndex(2);
    the<QLineEdit>("decantFrom").setFocus();
    QTest::keyClicks(QApplication::focusWidget(), QStringLiteral("A103"));
    press(Qt::Key_Return);
    QTest::keyClicks(QApplication::focusWidget(), QStringLiteral("A107"));
    press(Qt::Key_Return);
    QTest::keyClicks(QApplication::focusWidget(), QStringLiteral("3.2"));
    press(Qt::Key_Return);
    EXPECT_EQ(net("A107"), "3.2 lb");
}

TEST_F(KeyboardTest, EscapeLeavesAndEnterGoesOn) {
    the<QLineEdit>("scanField").setFocus();
    QTest::keyClicks(QApplication::focusWidget(), QStringLiteral("A10"));
    press(Qt::Key_Escape);
    EXPECT_TRUE(the<QLineEdit>("scanField").text().isEmpty());
    for (const char* place : {"fleet", "jobs", "returns", "books", "today"}) {
        window().openPlace(QString::fromLatin1(place));
        EXPECT_NE(QApplication::focusWidget(), nullptr) << place;
        EXPECT_TRUE(QApplication::focusWidget()->isVisible()) << place;
    }
    RegisterDialog registering(window().desk(), &window());
    registering.show();
    QApplication::setActiveWindow(&registering);
    QTest::keyClick(&registering, Qt::Key_Escape);
    EXPECT_FALSE(registering.isVisible());
    SettingsDialog settings(shop().settings(), QStringLiteral("Settings"), QStringLiteral("Keep"), &window());
    settings.show();
    QApplication::setActiveWindow(&settings);
    type("settingName", "By Enter");
    QTest::keyClick(&the<QLineEdit>("settingName"), Qt::Key_Return);
    EXPECT_EQ(settings.result(), QDialog::Accepted);
}

// A name, then Enter: the cell is left, the line is not entered half typed.
TEST_F(KeyboardTest, EnterInACellOfTheNamesEntersNothing) {
    NamesDialog names(window().desk(), &window());
    names.show();
    QApplication::setActiveWindow(&names);
    const auto before = shop().store().headSeq();
    auto& list = the<QTableWidget>("namesPeople");
    list.setFocus();
    list.setCurrentCell(list.rowCount() - 1, 0);
    QTest::keyClick(&list, Qt::Key_F2);
    QApplication::processEvents();
    QTest::keyClicks(QApplication::focusWidget(), QStringLiteral("ROBIN QUILL"));
    press(Qt::Key_Return);
    EXPECT_EQ(list.item(list.rowCount() - 1, 0)->text(), QStringLiteral("ROBIN QUILL"));
    EXPECT_EQ(shop().store().headSeq(), before);
}

// An empty that nobody evacuated says so before it goes out, and the step is beside it.
TEST_F(KeyboardTest, TheMissingEvacuationIsEnteredWhereItIsTold) {
    NewCylinder cylinder;
    cylinder.plate = card(shop(), "A102").value().state.plate;
    cylinder.plate.serial = "A300";
    window().desk().notifyRecorded(registerCylinder(shop(), cylinder));
    window().openPlace(QStringLiteral("jobs"));
    choose("outSystem", "ST-ALDER/RTU-3");
    choose("outPerson", "MORGAN VALE");
    scan("A300");
    const auto& cards = the<FindingView>("outFindings").cards();
    ASSERT_EQ(cards.size(), 2U);
    EXPECT_EQ(cards.front()->finding().rule, "plan.evacuation");
    EXPECT_EQ(cards.back()->finding().rule, "release.evacuation") << "how far the system is to be evacuated";
    EXPECT_TRUE(the<QPushButton>("outRecord").isEnabled());
    questions::queueAnswer(QStringLiteral("500 microns, pump 2"));
    click("outEvacuated:A300");
    EXPECT_TRUE(card(shop(), "A300").value().state.evacuated);
    EXPECT_EQ(the<FindingView>("outFindings").count(), 1);
}

TEST_F(KeyboardTest, TheChargesOfTheBooksGoBackAsFarAsOneAsks) {
    std::vector<Draft> drafts;
    for (int number = 0; number < 420; ++number) {
        NewCylinder cylinder;
        cylinder.plate = card(shop(), "A103").value().state.plate;
        cylinder.plate.serial = fmt::format("L{:03}", number);
        cylinder.content = lb("1.0");
        cylinder.refrigerant = "R-22";
        const auto its = draftsOf(shop(), cylinder);
        drafts.insert(drafts.end(), its.value().begin(), its.value().end());
    }
    window().desk().notifyRecorded(shop().record(drafts));
    window().openPlace(QStringLiteral("books"));
    auto& box = the<QComboBox>("bookLot");
    EXPECT_EQ(box.count(), 400);
    EXPECT_TRUE(the<QLabel>("bookListed").isVisible());
    EXPECT_TRUE(the<QLabel>("bookListed").text().contains(QStringLiteral("newest 400")));
    // Words that are no charge are told, and the number of an older one answers.
    box.setEditText(QStringLiteral("nonsense"));
    QTest::keyClick(box.lineEdit(), Qt::Key_Return);
    EXPECT_TRUE(the<QLabel>("bookSentence").text().contains(QStringLiteral("no charge of the list")));
    const auto first = shop().store().entries(1, shop().store().headSeq(), {EntryKind::opened});
    ASSERT_TRUE(first);
    box.setEditText(QString::number(first.value().front().seq));
    QTest::keyClick(box.lineEdit(), Qt::Key_Return);
    EXPECT_TRUE(the<QLabel>("bookSentence").text().contains(QStringLiteral("14.6 lb")))
        << utf8(the<QLabel>("bookSentence").text());
    click("bookOlder");
    EXPECT_EQ(box.count(), 423); // with the three of the week
    EXPECT_FALSE(the<QLabel>("bookListed").isVisible());
}
