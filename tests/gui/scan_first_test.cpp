// The counter by scanner alone: what is scanned does the natural next thing, in the window and by its keys.
#include "tests/gui/support/gui_shop.h"

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTabWidget>
#include <QTableWidget>

#include "ui/finding_view.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class ScanFirstTest : public GuiTest {
protected:
    /// A scanner types where the person is, and ends with Enter.
    void scanner(const char* text) {
        QWidget* target = QApplication::focusWidget();
        ASSERT_NE(target, nullptr);
        QTest::keyClicks(target, QString::fromUtf8(text));
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
        QApplication::processEvents();
    }
    [[nodiscard]] std::string holder(const char* serial) { return card(shop(), serial).value().state.holder; }
    void begin() {
        window().show();
        window().activateWindow();
        window().openPlace(QStringLiteral("jobs"));
        the<QLineEdit>("scanField").setFocus();
        QApplication::processEvents();
    }
};

} // namespace

TEST_F(ScanFirstTest, SixScansAndEnterWithoutTouchingTheMouse) {
    begin();
    the<QComboBox>("outPurpose").setCurrentIndex(2); // only to carry
    const Sequence before = shop().store().headSeq();
    for (const char* text : {"A102", "A103", "MORGAN VALE", "A104", "A105", "A107"}) {
        scanner(text); // the technician in any order
    }
    EXPECT_EQ(shop().store().headSeq(), before) << "nothing goes out before Enter";
    scanner("");
    for (const char* serial : {"A102", "A103", "A104", "A105", "A107"}) {
        EXPECT_EQ(holder(serial), "MORGAN VALE") << serial;
    }
    EXPECT_EQ(shop().store().headSeq(), before + 5);
    EXPECT_EQ(QApplication::focusWidget(), &the<QLineEdit>("scanField")) << "ready for the next";
}

TEST_F(ScanFirstTest, HandsOverFromTechnicianToTechnician) {
    begin();
    the<QComboBox>("outPurpose").setCurrentIndex(2);
    for (const char* text : {"MORGAN VALE", "A102", "A104", ""}) {
        scanner(text);
    }
    ASSERT_EQ(holder("A102"), "MORGAN VALE");
    // To the next technician: that it is out is told at once, with the way on beside it.
    scanner("A102");
    scanner("JULES ARBOR");
    EXPECT_FALSE(the<QPushButton>("outRecord").isEnabled());
    click("outHandOver:A102");
    EXPECT_TRUE(the<QPushButton>("outRecord").isEnabled());
    the<QLineEdit>("scanField").setFocus();
    scanner("A104");
    scanner("A107"); // which is in the shop
    EXPECT_FALSE(the<QPushButton>("outRecord").isEnabled());
    click("outDrop:A107");
    the<QLineEdit>("scanField").setFocus();
    const Sequence before = shop().store().headSeq();
    scanner("");
    EXPECT_EQ(holder("A102"), "JULES ARBOR");
    EXPECT_EQ(holder("A104"), "JULES ARBOR");
    EXPECT_EQ(holder("A107"), "");
    ASSERT_EQ(shop().store().headSeq(), before + 2);
    EXPECT_EQ(shop().store().entry(before + 1).value().kind, EntryKind::handedOver);
    EXPECT_EQ(the<QComboBox>("outPurpose").currentIndex(), 0) << "the next ones stand in the shop";
    // Undo takes both back.
    QTest::keyClick(&window(), Qt::Key_Z, Qt::ControlModifier);
    QApplication::processEvents();
    EXPECT_EQ(holder("A102"), "MORGAN VALE");
    EXPECT_EQ(holder("A104"), "MORGAN VALE");
    // To whoever has it already there is nothing to hand over.
    the<QComboBox>("outPurpose").setCurrentIndex(3);
    for (const char* text : {"A102", "MORGAN VALE"}) {
        scan(text);
    }
    EXPECT_FALSE(the<QPushButton>("outRecord").isEnabled());
}

TEST_F(ScanFirstTest, ComesBackWithoutAScanOfItsJob) {
    begin();
    for (const char* text : {"J-2231", "MORGAN VALE", "A102", ""}) {
        scanner(text);
    }
    ASSERT_EQ(holder("A102"), "MORGAN VALE");
    EXPECT_EQ(card(shop(), "A102").value().state.job, "J-2231");
    setTime("2026-09-14T20:00:00Z");
    the<QTabWidget>("jobsTabs").setCurrentIndex(1);
    the<QLineEdit>("scanField").setFocus();
    // Cylinder, system, weight: who had it, and for which job, the books know.
    for (const char* text : {"A102", "ST-ALDER/RTU-3", "59.6 lb"}) {
        scanner(text);
    }
    the<QPushButton>("inRecord").setFocus();
    QTest::keyClick(&the<QPushButton>("inRecord"), Qt::Key_Space);
    QApplication::processEvents();
    EXPECT_EQ(holder("A102"), "");
    EXPECT_EQ(net("A102"), "31.5 lb");
    const auto entries = shop().store().entriesAbout("job:J-2231");
    ASSERT_TRUE(entries);
    EXPECT_TRUE(std::any_of(entries.value().begin(), entries.value().end(), [](const Entry& entry) {
        return entry.kind == EntryKind::recovered && entry.body.value("person", "") == "MORGAN VALE";
    }));
}

TEST_F(ScanFirstTest, AWrongScanIsToldAtOnceAndMakesNoSoundUnasked) {
    begin();
    std::vector<bool> heard;
    QObject::connect(&window(), &MainWindow::scanRefused, &window(),
                     [&](const QString&, bool sound) { heard.push_back(sound); });
    scanner("MORGAN VALE");
    scanner("NO-SUCH-ONE");
    EXPECT_EQ(heard, std::vector<bool>{false});
    bool told = false;
    for (const QLabel* label : window().findChildren<QLabel*>()) {
        told = told || (label->isVisible() && label->text().contains(QStringLiteral("NO-SUCH-ONE")));
    }
    EXPECT_TRUE(told);
    // What was scanned before it stands.
    scanner("A102");
    scanner("");
    EXPECT_EQ(holder("A102"), "MORGAN VALE");
}
