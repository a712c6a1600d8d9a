// Who did it, in the window: signing in, wrong tries, the lock, what a role leaves of the menus.
#include <functional>

#include <QAction>
#include <QComboBox>
#include <QDialog>
#include <QMenu>
#include <QSettings>
#include <QTimer>

#include "core/shop/operators.h"
#include "tests/gui/support/gui_shop.h"
#include "ui/kit.h"
#include "ui/operators_dialog.h"
#include "ui/questions.h"
#include "ui/register_dialog.h"
#include "ui/sign_in_dialog.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr int kLookMs = 20;
constexpr int kPatienceMs = 10'000;
const char* const kWords = "four quiet blue valves";

class OperatorsWindowTest : public GuiTest {
protected:
    void SetUp() override {
        GuiTest::SetUp();
        // What the program remembers of this person stays in the folder of the test.
        QSettings::setPath(QSettings::IniFormat, QSettings::UserScope, qt(m_folder.string()));
    }
    /// Does the work in the sign-in dialog as soon as it is open.
    void whenAsked(std::function<void()> work) {
        auto* timer = new QTimer(m_program.get());
        timer->callOnTimeout(m_program.get(), [timer, work = std::move(work)] {
            const QWidget* open = QApplication::activeModalWidget();
            if (open != nullptr && open->objectName() == QLatin1String("signInDialog")) {
                timer->stop();
                timer->deleteLater();
                work();
            }
        });
        timer->start(kLookMs);
    }
    void giveWords(const char* words) {
        type("signInPassphrase", words);
        QTest::keyClick(&the<QLineEdit>("signInPassphrase"), Qt::Key_Return);
    }
    QString told() { return the<QLabel>("signInTold").text(); }
    void chooseName(const char* name) {
        auto& box = the<QComboBox>("signInName");
        box.setCurrentIndex(box.findText(QLatin1String(name)));
        ASSERT_EQ(box.currentText(), QLatin1String(name));
    }
    void add(const char* name, Role role) {
        const Recorded recorded = addOperator(shop(), name, role, kWords);
        ASSERT_TRUE(recorded.ok()) << recorded.error.text();
    }
    /// A manager and one of each other role; the file is opened anew by the one who is named.
    void openAs(const char* name) {
        add("PAT KESTREL", Role::manager);
        ASSERT_TRUE(signIn(shop(), "PAT KESTREL", kWords, m_clock.now()));
        add("MORGAN VALE", Role::technician);
        add("IDA SHAW", Role::auditor);
        whenAsked([this, name] {
            chooseName(name);
            giveWords(kWords);
        });
        ASSERT_TRUE(m_program->openShop(qt(file("shop.tarebook"))));
        ASSERT_EQ(shop().store().signedIn()->name, name);
    }
    bool isVisible(const char* action) { return the<QAction>(action).isVisible(); }
    QTimer& idle() { return *m_program->findChild<QTimer*>(QStringLiteral("idleTimer")); }
    /// Lets the time without a touch run out, does the work in the lock, and waits until that is gone.
    void lockAnd(std::function<void()> work) {
        QWidget* above = QApplication::activeModalWidget();
        bool done = false;
        whenAsked([&done, work = std::move(work)] {
            work();
            done = true;
        });
        idle().start(1);
        ASSERT_TRUE(QTest::qWaitFor(
            [&done, above] { return done && QApplication::activeModalWidget() == above; }, kPatienceMs));
    }
};

} // namespace

TEST_F(OperatorsWindowTest, AShopThatNobodySignsInToShowsNoSignIn) {
    EXPECT_FALSE(the<QPushButton>("operatorButton").isVisible());
    EXPECT_FALSE(isVisible("actionLock"));
    EXPECT_TRUE(isVisible("actionOperators"));
    EXPECT_TRUE(isVisible("actionSettings"));
    EXPECT_FALSE(idle().isActive());
}

TEST_F(OperatorsWindowTest, AManagerSetsUpTheFirstAndTheOthers) {
    QTimer::singleShot(0, m_program.get(), [this] {
        EXPECT_TRUE(the<QLabel>("operatorsHint").text().contains(QStringLiteral("Nobody signs in")));
        EXPECT_FALSE(the<QPushButton>("operatorRemove").isEnabled());
        QTimer::singleShot(0, m_program.get(), [this] {
            type("fact:name", "PAT KESTREL");
            EXPECT_EQ(the<QComboBox>("fact:role").count(), 1) << "the first is a manager";
            type("fact:passphrase", "short");
            EXPECT_FALSE(the<QPushButton>("factsEnter").isEnabled());
            type("fact:passphrase", kWords);
            type("fact:again", "four quiet blue valve");
            EXPECT_FALSE(the<QPushButton>("factsEnter").isEnabled());
            EXPECT_EQ(the<QLineEdit>("fact:passphrase").echoMode(), QLineEdit::Password);
            type("fact:again", kWords);
            click("factsEnter");
        });
        click("operatorAdd");
        questions::queueAnswer(
            QStringLiteral("name=MORGAN VALE\nrole=technician\npassphrase=%1\nagain=%1").arg(qt(kWords)));
        click("operatorAdd");
        auto& list = the<QTableWidget>("operators");
        ASSERT_EQ(list.rowCount(), 2);
        list.selectRow(0);
        EXPECT_EQ(list.item(0, 0)->text(), QStringLiteral("MORGAN VALE"));
        questions::queueAnswer(QStringLiteral("role=storekeeper"));
        click("operatorRole");
        EXPECT_EQ(list.item(0, 1)->text(), QStringLiteral("storekeeper"));
        list.selectRow(1);
        questions::queueAnswer(QStringLiteral("yes"));
        questions::queueAnswer(QString());
        click("operatorRemove");
        EXPECT_TRUE(questions::lastTold().contains(QStringLiteral("nobody would be a manager")));
        EXPECT_EQ(list.rowCount(), 2);
        the<QDialog>("operatorsDialog").reject();
    });
    the<QAction>("actionOperators").trigger();
    EXPECT_EQ(the<QPushButton>("operatorButton").text(), QStringLiteral("PAT KESTREL, manager"));
    EXPECT_TRUE(the<QPushButton>("operatorButton").isVisible());
    EXPECT_TRUE(isVisible("actionLock"));
    EXPECT_TRUE(idle().isActive());
    const Recorded weighed = weigh(shop(), "A105", lb("47.9"));
    ASSERT_TRUE(weighed.ok()) << weighed.error.text();
    EXPECT_EQ(shop().store().entry(weighed.entries.front()).value().operatorName, "PAT KESTREL");
}

TEST_F(OperatorsWindowTest, SignsInWithTheKeyboardAndIsRemembered) {
    add("PAT KESTREL", Role::manager);
    ASSERT_TRUE(signIn(shop(), "PAT KESTREL", kWords, m_clock.now()));
    add("MORGAN VALE", Role::technician);
    whenAsked([this] {
        chooseName("PAT KESTREL");
        EXPECT_EQ(the<QDialog>("signInDialog").focusWidget(), &the<QLineEdit>("signInPassphrase"));
        giveWords("wrong wrong");
        EXPECT_TRUE(told().contains(QStringLiteral("The passphrase is wrong; 4 tries left"))) << utf8(told());
        EXPECT_TRUE(the<QLineEdit>("signInPassphrase").text().isEmpty());
        giveWords(kWords);
    });
    ASSERT_TRUE(m_program->openShop(qt(file("shop.tarebook"))));
    EXPECT_EQ(the<QPushButton>("operatorButton").text(), QStringLiteral("PAT KESTREL, manager"));
    // The next time only the passphrase is missing; who thinks better of it keeps the window that is open.
    MainWindow* before = &window();
    whenAsked([this] {
        EXPECT_EQ(the<QComboBox>("signInName").currentText(), QStringLiteral("PAT KESTREL"));
        click("signInLeave");
    });
    EXPECT_FALSE(m_program->openShop(qt(file("shop.tarebook"))));
    EXPECT_EQ(&window(), before);
}

TEST_F(OperatorsWindowTest, AfterFiveWrongTriesOneWaits) {
    add("PAT KESTREL", Role::manager);
    whenAsked([this] {
        for (int tries = 0; tries < 5; ++tries) {
            giveWords("wrong wrong");
        }
        EXPECT_TRUE(told().contains(QStringLiteral("try again in 30 seconds"))) << utf8(told());
        giveWords(kWords);
        EXPECT_TRUE(told().contains(QStringLiteral("try again in"))) << utf8(told());
        setTime("2026-09-14T13:00:30Z");
        giveWords(kWords);
    });
    EXPECT_TRUE(m_program->openShop(qt(file("shop.tarebook"))));
    EXPECT_FALSE(shop().store().needsSignIn());
}

TEST_F(OperatorsWindowTest, ATechniciansWindowOffersNoSettings) {
    ASSERT_TRUE(weigh(shop(), "A105", lb("46.4")).ok()); // a finding that a manager may settle
    openAs("MORGAN VALE");
    for (const char* action :
         {"actionSettings", "actionImport", "actionRegister", "actionNames", "actionOperators"}) {
        EXPECT_FALSE(isVisible(action)) << action;
    }
    for (const char* action : {"actionUndo", "actionPassphrase", "actionLock", "actionOperatorChange"}) {
        EXPECT_TRUE(isVisible(action)) << action;
    }
    QTest::keyClick(&window(), Qt::Key_Comma, Qt::ControlModifier);
    EXPECT_EQ(QApplication::activeModalWidget(), nullptr);
    scan("A105");
    EXPECT_THROW(the<QPushButton>("overrule:weight.differs"), std::runtime_error);
    EXPECT_FALSE(isVisible("act:condemn"));
    EXPECT_TRUE(isVisible("act:weigh"));
}

TEST_F(OperatorsWindowTest, AnAuditorOnlyReads) {
    openAs("IDA SHAW");
    EXPECT_TRUE(shop().store().readOnly());
    EXPECT_FALSE(isVisible("actionSettings"));
    EXPECT_FALSE(isVisible("actionUndo"));
    EXPECT_FALSE(isVisible("actionPassphrase"));
    // Even a way that was left open writes nothing.
    EXPECT_FALSE(weigh(shop(), "A105", lb("46.4")).ok());
    EXPECT_EQ(net("A105"), "20.0 lb");
}

TEST_F(OperatorsWindowTest, LeftAloneItLocksAndKeepsWhatWasTyped) {
    openAs("PAT KESTREL");
    window().openPlace(QStringLiteral("jobs"));
    type("outExpected", "20 lb");
    lockAnd([this] {
        auto* cover = window().findChild<QWidget*>(QStringLiteral("lockCover"));
        ASSERT_NE(cover, nullptr);
        EXPECT_EQ(cover->geometry(), window().rect());
        window().resize(window().width() + 40, window().height() + 20);
        QApplication::processEvents();
        EXPECT_EQ(cover->geometry(), window().rect());
        QTest::keyClick(&the<QDialog>("signInDialog"), Qt::Key_Escape);
        EXPECT_TRUE(the<QDialog>("signInDialog").isVisible()) << "Escape does not unlock";
        giveWords("wrong wrong");
        EXPECT_TRUE(told().contains(QStringLiteral("wrong")));
        giveWords(kWords);
    });
    EXPECT_EQ(window().findChild<QWidget*>(QStringLiteral("lockCover")), nullptr);
    EXPECT_EQ(the<QLineEdit>("outExpected").text(), QStringLiteral("20 lb"));
    EXPECT_TRUE(idle().isActive());
}

TEST_F(OperatorsWindowTest, AnOpenDialogIsCoveredAndStaysTheirs) {
    openAs("PAT KESTREL");
    bool unlocked = false;
    QTimer::singleShot(0, m_program.get(), [this, &unlocked] {
        type("register:serial", "N-77");
        lockAnd([this] {
            EXPECT_NE(the<QDialog>("registerDialog").findChild<QWidget*>(QStringLiteral("lockCover")),
                      nullptr);
            EXPECT_EQ(the<QComboBox>("signInName").count(), 1) << "half typed work is nobody else's";
            giveWords(kWords);
        });
        unlocked = true;
        EXPECT_EQ(the<QLineEdit>("register:serial").text(), QStringLiteral("N-77"));
        the<QDialog>("registerDialog").reject();
    });
    the<QAction>("actionRegister").trigger();
    EXPECT_TRUE(unlocked);
}

TEST_F(OperatorsWindowTest, WhoElseUnlocksGetsAWindowOfTheirOwn) {
    openAs("PAT KESTREL");
    window().openPlace(QStringLiteral("jobs"));
    type("outExpected", "20 lb");
    const QPointer<MainWindow> before = &window();
    lockAnd([this] {
        chooseName("MORGAN VALE");
        giveWords(kWords);
    });
    ASSERT_TRUE(QTest::qWaitFor([&before] { return before.isNull(); }, kPatienceMs));
    EXPECT_EQ(the<QPushButton>("operatorButton").text(), QStringLiteral("MORGAN VALE, technician"));
    EXPECT_TRUE(the<QLineEdit>("outExpected").text().isEmpty());
    EXPECT_FALSE(isVisible("actionSettings"));
}

TEST_F(OperatorsWindowTest, WakingAfterASleepCountsByTheClock) {
    openAs("PAT KESTREL");
    setTime("2026-09-14T13:09:00Z");
    QTest::keyClicks(&the<QLineEdit>("scanField"), QStringLiteral("A"));
    EXPECT_EQ(the<QLineEdit>("scanField").text(), QStringLiteral("A"));
    setTime("2026-09-14T13:19:00Z"); // ten minutes after the last touch
    bool asked = false;
    whenAsked([this, &asked] {
        asked = true;
        giveWords(kWords);
    });
    QTest::keyClicks(&the<QLineEdit>("scanField"), QStringLiteral("B"));
    EXPECT_EQ(the<QLineEdit>("scanField").text(), QStringLiteral("A")) << "the touch that wakes it is lost";
    EXPECT_TRUE(QTest::qWaitFor([&asked] { return asked; }, kPatienceMs));
    EXPECT_TRUE(QTest::qWaitFor([] { return QApplication::activeModalWidget() == nullptr; }, kPatienceMs));
}

TEST_F(OperatorsWindowTest, APassphraseThatAnotherProgramTookAwayLocksTheWindow) {
    openAs("MORGAN VALE");
    auto other = Shop::open(file("shop.tarebook"), {TAREBOOK_RESOURCE_DIR, &m_clock, systemIds(), "X"}).shop;
    ASSERT_TRUE(signIn(*other, "PAT KESTREL", kWords, m_clock.now()));
    ASSERT_TRUE(removeOperator(*other, "MORGAN VALE").ok());
    bool asked = false;
    whenAsked([this, &asked] {
        asked = true;
        EXPECT_EQ(the<QComboBox>("signInName").findText(QStringLiteral("MORGAN VALE")), -1);
        chooseName("PAT KESTREL");
        giveWords(kWords);
    });
    EXPECT_TRUE(QTest::qWaitFor([&asked] { return asked; }, kPatienceMs)) << "it looks every two seconds";
    EXPECT_TRUE(QTest::qWaitFor(
        [this] {
            return the<QPushButton>("operatorButton").text() == QStringLiteral("PAT KESTREL, manager");
        },
        kPatienceMs));
}

TEST_F(OperatorsWindowTest, EachChangesTheirOwnPassphrase) {
    openAs("MORGAN VALE");
    questions::queueAnswer(QStringLiteral("passphrase=a heel of nine pounds\nagain=a heel of nine pounds"));
    the<QAction>("actionPassphrase").trigger();
    EXPECT_EQ(the<QLabel>("said").text(), QStringLiteral("New passphrase of MORGAN VALE"));
    EXPECT_FALSE(shop().store().needsSignIn());
    EXPECT_FALSE(signIn(shop(), "MORGAN VALE", kWords, m_clock.now()));
    EXPECT_TRUE(signIn(shop(), "MORGAN VALE", "a heel of nine pounds", m_clock.now()));
}
