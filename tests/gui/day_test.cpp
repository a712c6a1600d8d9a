// All jobs of a day in the window: a sheet is chosen, what was read and what goes to whom is seen, a
// technician's cylinders are checked out, by mouse and by keyboard. Rooms: the week at the counter (A105
// takes 20.5 lb on top of the grocers' gas, A102 40.5 lb of R-410A; A101 is overdue).
#include "tests/gui/support/gui_shop.h"

#include <QAction>
#include <QComboBox>
#include <QFile>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTabWidget>
#include <QTableWidget>

#include "ui/day_dialog.h"
#include "ui/desk.h"
#include "ui/finding_view.h"
#include "ui/kit.h"
#include "ui/questions.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr const char* kSheet = "hour,technician,job,direction,system,mass,method\n"
                               "13:00,MORGAN VALE,J-2,recover,ST-ALDER/GYM-1,8 lb,\n"
                               "7:30,MORGAN VALE,J-1,recover,ST-ALDER/RTU-3,32 lb,liquid\n"
                               "8,JULES ARBOR,J-3,charge,BRIGHTWATER/STORE-2,10 lb,\n"
                               "9,JULES ARBOR,J-4,recover,ST-ALDER/RTU-3,400 lb,\n"
                               "10,JULES ARBOR,J-5,recover,ST-ALDER/RTU-3,lots,\n";

class DayInTheWindow : public GuiTest {
protected:
    void SetUp() override {
        GuiTest::SetUp();
        QFile sheet(qt(file("jobs.csv")));
        ASSERT_TRUE(sheet.open(QIODevice::WriteOnly));
        sheet.write(kSheet);
        sheet.close();
        the<QAction>("actionDay").trigger();
        QTest::qWait(0);
    }
    void TearDown() override {
        for (QWidget* top : QApplication::topLevelWidgets()) {
            if (top->objectName() == QLatin1String("dayDialog")) {
                top->close();
            }
        }
        QTest::qWait(0);
        GuiTest::TearDown();
    }
    /// A button that is pressed by its letter clicks when it has been seen to go down.
    static void pressButton(Qt::Key key) {
        constexpr int kSeen = 250; // ms
        press(key, Qt::AltModifier);
        QTest::qWait(kSeen);
    }
    DayDialog& dialog() { return the<DayDialog>("dayDialog"); }
    bool takes() { return dialog().takeSheet(qt(file("jobs.csv"))); }
    static void press(Qt::Key key, Qt::KeyboardModifiers with = Qt::NoModifier) {
        QTest::keyClick(QApplication::focusWidget(), key, with);
        QApplication::processEvents();
    }
    std::string cell(const char* table, int row, int column) {
        const auto* item = the<QTableWidget>(table).item(row, column);
        return item == nullptr ? "none" : utf8(item->text());
    }
    std::string told(const char* label) { return utf8(the<QLabel>(label).text()); }
    std::string holderOf(const char* serial) { return card(shop(), serial).value().state.holder; }
};

} // namespace

TEST_F(DayInTheWindow, TheSheetIsReadAndPlanned) {
    EXPECT_FALSE(the<QPushButton>("dayCheckOut").isEnabled());
    EXPECT_FALSE(the<QPushButton>("dayPdf").isEnabled());
    ASSERT_TRUE(takes());
    EXPECT_EQ(told("daySummary"), "2026-09-14: 2 cylinders for 3 of 4 jobs, proved the fewest. A row of the "
                                  "sheet cannot be read: see what was read.");
    auto& table = the<QTableWidget>("dayTable");
    ASSERT_EQ(table.rowCount(), 4);
    EXPECT_EQ(cell("dayTable", 0, 0), "JULES ARBOR");
    EXPECT_EQ(cell("dayTable", 0, 4), "A105") << "their own gas";
    EXPECT_EQ(cell("dayTable", 0, 6), "37.9 lb (now 47.9 lb)") << "10 lb go out, nothing is filled";
    EXPECT_EQ(cell("dayTable", 1, 4), "▲ none");
    EXPECT_NE(cell("dayTable", 1, 7).find("400.0 lb"), std::string::npos) << cell("dayTable", 1, 7);
    EXPECT_EQ(cell("dayTable", 2, 1), "07:30");
    EXPECT_EQ(cell("dayTable", 2, 3), "recover 32.0 lb R-410A");
    EXPECT_EQ(cell("dayTable", 2, 4), "A102");
    EXPECT_EQ(cell("dayTable", 2, 5), "32.0 lb");
    EXPECT_EQ(cell("dayTable", 3, 4), "A102") << "both schools are one owner's";
    // What was read, the wrong row with what would be right.
    ASSERT_EQ(the<QTableWidget>("dayRead").rowCount(), 5);
    EXPECT_EQ(cell("dayRead", 0, 1), "✓ read");
    EXPECT_EQ(cell("dayRead", 4, 1), "▲ refused");
    EXPECT_NE(cell("dayRead", 4, 2).find("mass: "), std::string::npos);
    // The chosen row: practice with its steps, and why the others stay.
    table.setCurrentCell(2, 0);
    const auto& cards = the<FindingView>("dayFindings").cards();
    ASSERT_FALSE(cards.empty());
    EXPECT_TRUE(std::any_of(cards.begin(), cards.end(), [](const FindingCard* one) {
        return one->finding().rule == "plan.method" && one->finding().firmness == Firmness::practice;
    }));
    bool small = false;
    for (int row = 0; row < the<QTableWidget>("dayNext").rowCount(); ++row) {
        small = small || (cell("dayNext", row, 0) == "A107" && cell("dayNext", row, 1) == "plan.room");
    }
    EXPECT_TRUE(small) << "22.2 lb of room are too little for 32";
    // 28.1 lb of tare and 40.5 lb: all of the row, where the columns are too narrow for it.
    EXPECT_EQ(told("dayWhy"),
              "MORGAN VALE, J-1, recover 32.0 lb R-410A: takes A102 (clean empty, evacuated), "
              "room for 32.0 lb in it; stop at gross 68.6 lb.");
    table.setCurrentCell(1, 0);
    EXPECT_NE(told("dayWhy").find("not served"), std::string::npos) << told("dayWhy");
}

TEST_F(DayInTheWindow, WhatIsTypedPlansAnewOnEnterAndSaysWhatIsWrong) {
    ASSERT_TRUE(takes());
    type("dayMargin", "10 %");
    EXPECT_NE(told("daySummary").find("Press Enter"), std::string::npos);
    for (const char* name : {"dayPrint", "dayPdf", "dayCheckOut"}) {
        EXPECT_FALSE(the<QPushButton>(name).isEnabled()) << name << ": what is typed is not what is shown";
    }
    press(Qt::Key_Return);
    EXPECT_TRUE(the<QPushButton>("dayCheckOut").isEnabled());
    EXPECT_NE(told("daySummary").find("3 cylinders for 3 of 4"), std::string::npos)
        << "44 lb are more than one takes: " << told("daySummary");
    type("dayMargin", "some");
    press(Qt::Key_Return);
    EXPECT_NE(told("daySummary").find("'some' is no margin"), std::string::npos) << told("daySummary");
    EXPECT_EQ(the<QTableWidget>("dayTable").rowCount(), 0);
    EXPECT_FALSE(the<QPushButton>("dayCheckOut").isEnabled());
    type("dayMargin", "");
    type("dayDay", "2026-09-01");
    press(Qt::Key_Return);
    EXPECT_NE(told("daySummary").find("2026-09-01 has passed"), std::string::npos) << told("daySummary");
    EXPECT_FALSE(dialog().takeSheet(qt(file("none.csv"))));
    EXPECT_NE(told("daySummary").find("cannot be read"), std::string::npos);
}

TEST_F(DayInTheWindow, ATechnicianIsCheckedOutWithoutAMouse) {
    ASSERT_TRUE(takes());
    dialog().activateWindow();
    QApplication::setActiveWindow(&dialog());
    the<QLineEdit>("dayDay").setFocus();
    press(Qt::Key_T, Qt::AltModifier);
    ASSERT_EQ(QApplication::focusWidget(), &the<QComboBox>("dayPerson"));
    press(Qt::Key_M); // MORGAN VALE
    ASSERT_EQ(the<QComboBox>("dayPerson").currentText(), QStringLiteral("MORGAN VALE"));
    // Thought better of it.
    const Sequence head = shop().store().headSeq();
    questions::queueAnswer({});
    pressButton(Qt::Key_C);
    EXPECT_NE(questions::lastTold().indexOf(QStringLiteral("J-1: A102\nJ-2: shares")), -1)
        << utf8(questions::lastTold());
    EXPECT_EQ(shop().store().headSeq(), head);
    questions::queueAnswer(QStringLiteral("yes"));
    pressButton(Qt::Key_C);
    EXPECT_EQ(told("daySaid"), "One cylinder handed to MORGAN VALE");
    EXPECT_EQ(holderOf("A102"), "MORGAN VALE");
    EXPECT_EQ(holderOf("A105"), "") << "the other technician's stays";
    EXPECT_EQ(the<QComboBox>("dayPerson").count(), 1);
    // Planned anew, what went out is left out.
    pressButton(Qt::Key_W);
    EXPECT_NE(told("daySummary").find("1 cylinder for 1 of 2 jobs"), std::string::npos) << told("daySummary");
    // Undo takes it back, and says that the plan is of before.
    the<QAction>("actionUndo").trigger();
    EXPECT_EQ(holderOf("A102"), "");
    EXPECT_NE(told("daySummary").find("books have changed"), std::string::npos) << told("daySummary");
}

TEST_F(DayInTheWindow, WhatBecameUnlawfulIsRefusedWithItsReason) {
    ASSERT_TRUE(takes());
    CheckOut other;
    other.person = "MORGAN VALE";
    other.purpose = Purpose::carry;
    other.serials = {"A105"};
    ASSERT_TRUE(checkOut(shop(), other).ok());
    emit window().desk().changed();
    EXPECT_NE(told("daySummary").find("books have changed"), std::string::npos);
    ASSERT_EQ(the<QComboBox>("dayPerson").currentText(), QStringLiteral("JULES ARBOR"));
    const Sequence head = shop().store().headSeq();
    questions::queueAnswer(QStringLiteral("yes"));
    click("dayCheckOut");
    EXPECT_EQ(shop().store().headSeq(), head);
    EXPECT_NE(questions::lastTold().indexOf(QStringLiteral("MORGAN VALE")), -1)
        << utf8(questions::lastTold());
    EXPECT_NE(told("daySaid").find("Not handed out"), std::string::npos);
}

TEST_F(DayInTheWindow, ThePlanIsWrittenAsAPdf) {
    EXPECT_FALSE(dialog().writePdf(qt(file("none.pdf")))) << "nothing is planned";
    EXPECT_FALSE(QFile::exists(qt(file("none.pdf"))));
    ASSERT_TRUE(takes());
    EXPECT_TRUE(dialog().writePdf(qt(file("day.pdf"))));
    QFile pdf(qt(file("day.pdf")));
    ASSERT_TRUE(pdf.open(QIODevice::ReadOnly));
    EXPECT_TRUE(pdf.read(5) == "%PDF-");
    EXPECT_GT(pdf.size(), 5'000);
    EXPECT_FALSE(dialog().writePdf(QStringLiteral("/nowhere/day.pdf")));
}

TEST_F(DayInTheWindow, ASmallWindowShowsAllOfItAlsoInLargeType) {
    const QFont before = QApplication::font();
    for (const double factor : {1.0, 2.0}) {
        QFont font = before;
        font.setPointSizeF(before.pointSizeF() * factor);
        QApplication::setFont(font);
        DayDialog its(window().desk(), &window());
        ASSERT_TRUE(its.takeSheet(qt(file("jobs.csv"))));
        its.resize(1000, 700);
        its.show();
        QApplication::processEvents();
        EXPECT_LE(its.width(), 1000) << factor;
        EXPECT_LE(its.height(), 700) << factor;
        for (const char* name : {"daySheet", "dayAnew", "dayCheckOut", "dayPrint", "dayPdf", "dayClose"}) {
            const auto* button = its.findChild<QPushButton*>(QLatin1String(name));
            EXPECT_EQ(button->visibleRegion().boundingRect(), button->rect()) << name << " at " << factor;
            EXPECT_GE(button->width(), button->sizeHint().width()) << name << " at " << factor;
        }
        for (const QLineEdit* field : its.findChildren<QLineEdit*>()) {
            EXPECT_FALSE(field->accessibleName().isEmpty()) << utf8(field->objectName());
            EXPECT_GT(field->width(), field->fontMetrics().horizontalAdvance(QStringLiteral("2026-09-15")))
                << utf8(field->objectName()) << " at " << factor;
        }
    }
    QApplication::setFont(before);
}
