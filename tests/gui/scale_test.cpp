// What a machine at the counter sends. A scale on a serial port, in its place the other end of a
// pseudo-terminal (POSIX posix_openpt): what it sends by itself or when asked, at rest or moving, and what it
// sends when something is wrong. The forms of the lines are in common use, from memory.
#include "tests/gui/support/gui_shop.h"

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QSettings>
#include <QTimer>
#include <QToolButton>

#include <cstdlib>

#include <fcntl.h>
#include <termios.h>
#include <unistd.h>

#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/scale.h"
#include "ui/scale_dialog.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr int kPatience = 20'000;

class ScaleTest : public GuiTest {
protected:
    void SetUp() override {
        GuiTest::SetUp();
        QSettings::setPath(QSettings::IniFormat, QSettings::UserScope, qt(m_folder.string()));
        m_end = ::posix_openpt(O_RDWR | O_NOCTTY | O_NONBLOCK);
        ASSERT_GE(m_end, 0);
        ASSERT_EQ(::grantpt(m_end), 0);
        ASSERT_EQ(::unlockpt(m_end), 0);
        termios plain{};
        ASSERT_EQ(::tcgetattr(m_end, &plain), 0);
        ::cfmakeraw(&plain);
        ASSERT_EQ(::tcsetattr(m_end, TCSANOW, &plain), 0);
        m_port.port = QString::fromLocal8Bit(::ptsname(m_end));
        m_sending.setInterval(20);
    }
    void TearDown() override {
        m_sending.stop();
        ::close(m_end);
        GuiTest::TearDown();
    }
    void send(const std::string& text) const {
        EXPECT_EQ(::write(m_end, text.data(), text.size()), static_cast<ssize_t>(text.size()));
    }
    /// The scale sends these lines by itself, over and over the last.
    void sendByItself(const std::vector<std::string>& lines) {
        m_lines = lines;
        m_next = 0;
        m_sending.disconnect();
        QObject::connect(&m_sending, &QTimer::timeout, &m_sending, [this] {
            send(m_lines.at(std::min(m_next, m_lines.size() - 1)) + "\r\n");
            ++m_next;
        });
        m_sending.start();
    }
    /// The scale answers a request with the next of these lines.
    void answer(const std::string& request, const std::vector<std::string>& lines) {
        m_lines = lines;
        m_next = 0;
        m_sending.disconnect();
        QObject::connect(&m_sending, &QTimer::timeout, &m_sending, [this, request] {
            std::array<char, 64> bytes{};
            const ssize_t count = ::read(m_end, bytes.data(), bytes.size());
            m_asked.append(bytes.data(), static_cast<std::size_t>(std::max<ssize_t>(count, 0)));
            if (m_asked.find(request) != std::string::npos) {
                m_asked.clear();
                send(m_lines.at(std::min(m_next, m_lines.size() - 1)) + "\r\n");
                ++m_next;
            }
        });
        m_sending.start();
    }
    /// What weighing ends with: the text, or `failed: ` and why.
    std::string weighed(int patience = kPatience) {
        Scale scale;
        scale.setPatience(patience);
        QString end;
        QObject::connect(&scale, &Scale::weighed, &scale, [&](const QString& text) { end = text; });
        QObject::connect(&scale, &Scale::failed, &scale,
                         [&](const QString& why) { end = QStringLiteral("failed: ") + why; });
        scale.weigh(m_port);
        EXPECT_TRUE(QTest::qWaitFor([&] { return !end.isEmpty(); }, 2 * kPatience));
        EXPECT_FALSE(scale.busy()) << "the port is free again";
        return utf8(end);
    }
    [[nodiscard]] std::string shown(const char* name) { return utf8(the<QLabel>(name).text()); }

    int m_end = -1;
    ScalePort m_port;
    QTimer m_sending;
    std::vector<std::string> m_lines;
    std::size_t m_next = 0;
    std::string m_asked;
};

} // namespace

TEST_F(ScaleTest, WaitsUntilAScaleThatSendsByItselfIsStill) {
    // The first piece is the end of a line that began before anybody listened: 1.8 lb was 61.8.
    sendByItself({"1.8 lb", "US,GS,+  40.2 lb", "US,GS,+  59.9 lb", "ST,GS,+  61.8 lb"});
    EXPECT_EQ(weighed(), "61.8 lb");
}

TEST_F(ScaleTest, TakesTheSameWeightThreeTimesRunningForRestWhereTheScaleDoesNotSay) {
    sendByItself({"cut", "61.8 lb", "61.8 lb", "61.9 lb", "61.9 lb", "62.0 lb"});
    EXPECT_EQ(weighed(), "62.0 lb");
}

TEST_F(ScaleTest, AsksAScaleThatSendsOnlyWhenAsked) {
    m_port.request = QStringLiteral("P\\r\\n");
    m_port.unit = QStringLiteral("kg");
    answer("P\r\n", {"US + 21.60", "ST + 21.64"});
    EXPECT_EQ(weighed(), "21.64 kg");
}

TEST_F(ScaleTest, SaysWhyThereIsNoWeight) {
    EXPECT_NE(weighed(200).find("failed: Nothing came from the scale on"), std::string::npos);
    sendByItself({"cut", "ST,NT,+ 3.4 lb"});
    EXPECT_NE(weighed().find("net weight (3.4 lb)"), std::string::npos);
    sendByItself({"cut", "ST,GS,- 0.4 lb"});
    EXPECT_NE(weighed().find("below zero (-0.4 lb)"), std::string::npos);
    sendByItself({"cut", "OL"});
    EXPECT_NE(weighed(500).find("cannot weigh this"), std::string::npos);
    sendByItself({"cut", "US,GS,+ 61.8 lb"});
    EXPECT_NE(weighed(500).find("did not come to rest; the last it showed was 61.8 lb"), std::string::npos);
    m_port.port = QStringLiteral("/dev/no-such-port");
    EXPECT_NE(weighed().find("cannot be opened"), std::string::npos);
}

TEST_F(ScaleTest, AWrongScanIsToldAtOnceAndHeardOnlyWhereThatWasAskedFor) {
    std::vector<std::pair<std::string, bool>> refused;
    QObject::connect(&window(), &MainWindow::scanRefused, &window(),
                     [&](const QString& text, bool heard) { refused.emplace_back(utf8(text), heard); });
    scan("A103");
    EXPECT_TRUE(refused.empty());
    scan("NO-SUCH");
    auto* sound = window().findChild<QAction*>(QStringLiteral("actionSound"));
    sound->trigger();
    scan("NO-SUCH-2");
    sound->trigger();
    scan("NO-SUCH-3");
    EXPECT_EQ(refused, (std::vector<std::pair<std::string, bool>>{
                           {"NO-SUCH", false}, {"NO-SUCH-2", true}, {"NO-SUCH-3", false}}));
}

TEST_F(ScaleTest, IsSetUpTriedAndReadIntoACheckIn) {
    EXPECT_FALSE(the<QToolButton>("inAfterWeigh").isVisibleTo(&window())) << "no scale, no button";
    sendByItself({"cut", "ST,GS,+  61.8 lb"});
    QTimer::singleShot(0, &window(), [this] {
        the<QComboBox>("scalePort").setCurrentText(m_port.port);
        click("scaleTry");
        EXPECT_TRUE(
            QTest::qWaitFor([this] { return shown("scaleUnderstood") == "61.8 lb, at rest"; }, kPatience))
            << shown("scaleUnderstood");
        EXPECT_EQ(shown("scaleLine"), "ST,GS,+  61.8 lb");
        click("scaleKeep");
    });
    window().findChild<QAction*>(QStringLiteral("actionScale"))->trigger();
    EXPECT_EQ(ScalePort::kept().port, m_port.port);

    window().openPlace(QStringLiteral("jobs"));
    the<QTabWidget>("jobsTabs").setCurrentIndex(1);
    EXPECT_TRUE(the<QToolButton>("inAfterWeigh").isVisibleTo(&window()));
    window().activateWindow();
    QApplication::setActiveWindow(&window());
    QApplication::processEvents();
    type("inSerial", "A103");
    auto& after = the<QLineEdit>("inAfter");
    after.setFocus();
    QTest::keyClick(&after, Qt::Key_F8);
    ASSERT_TRUE(QTest::qWaitFor([&] { return after.text() == QStringLiteral("61.8 lb"); }, kPatience))
        << utf8(after.text()) << " " << shown("inAfterUnderstood");
    EXPECT_EQ(shown("inAfterUnderstood"), "taken as 61.8 lb");

    // Who types does not wait for the scale, and what it says then changes nothing.
    sendByItself({"cut", "US,GS,+ 50.0 lb"});
    click("inAfterWeigh");
    QTest::keyClicks(&after, QStringLiteral("47.7 lb"));
    sendByItself({"ST,GS,+ 50.0 lb"});
    QTest::qWait(200);
    EXPECT_EQ(utf8(after.text()), "47.7 lb");
    EXPECT_TRUE(the<QToolButton>("inAfterWeigh").isEnabled());
}
