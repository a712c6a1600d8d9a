// A cylinder that was exchanged at a counter, entered with keys alone from its card: the marks of the one
// that came, the counter, what will be written before it is, the step taken back; and the batch that it left
// as, settled.
#include "tests/gui/support/gui_shop.h"

#include <QAction>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTabWidget>
#include <QTimer>

#include "core/shop/counter_exchange.h"
#include "core/shop/receipts.h"
#include "tests/support/week_cylinders.h"
#include "ui/exchange_dialog.h"
#include "ui/finding_view.h"
#include "ui/kit.h"
#include "ui/settle_dialog.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class ExchangeWindowTest : public GuiTest {
protected:
    void SetUp() override {
        GuiTest::SetUp();
        ASSERT_TRUE(shop()
                        .record({draftOf(shop(), Party{"reclaimer", "Cape Reclaim", "Foundry Way 2", ""}),
                                 draftOf(shop(), Party{"supplier", "Estuary Supply", "", ""})})
                        .ok());
        window().activateWindow();
        QApplication::setActiveWindow(&window());
        QApplication::processEvents();
    }
    /// Presses a key where the focus is.
    static void press(Qt::Key key, Qt::KeyboardModifiers with = Qt::NoModifier) {
        QTest::keyClick(QApplication::focusWidget(), key, with);
        QApplication::processEvents();
    }
    static void write(const char* text) {
        QTest::keyClicks(QApplication::focusWidget(), QString::fromUtf8(text));
    }
    /// The marks of an empty of 26.2 lb, from the first field on.
    static void writeMarks(const char* serial) {
        write(serial);
        for (const char* mark : {"dot 4ba 400", "26.2 lb", "16.9", "6/25"}) {
            press(Qt::Key_Tab);
            write(mark);
        }
    }
    [[nodiscard]] CylinderState its(const char* serial) { return card(shop(), serial).value().state; }
};

} // namespace

TEST_F(ExchangeWindowTest, ByKeysFromTheCardSeenBeforeItIsWrittenAndTakenBack) {
    scan("A103");
    const Sequence before = shop().store().headSeq();
    bool asked = false;
    QTimer::singleShot(0, [&] {
        auto& dialog = the<ExchangeDialog>("exchangeDialog");
        QApplication::setActiveWindow(&dialog);
        QApplication::processEvents();
        const auto may = [this] { return the<QPushButton>("registerRecord").isEnabled(); };
        writeMarks("A201");
        EXPECT_FALSE(may()) << "nobody has said where";
        EXPECT_FALSE(the<QWidget>("registerEvacuated").isVisible());
        press(Qt::Key_X, Qt::AltModifier);
        press(Qt::Key_C, Qt::AltModifier);
        EXPECT_EQ(QApplication::focusWidget(), &the<QComboBox>("exchangeParty"));
        press(Qt::Key_Down);
        press(Qt::Key_Down);
        const auto& review = the<QLabel>("exchangeReview");
        EXPECT_FALSE(may()) << "used gas goes to no supplier";
        EXPECT_TRUE(review.text().contains(QLatin1String("Estuary Supply is no reclaimer")))
            << utf8(review.text());
        press(Qt::Key_Up);
        EXPECT_TRUE(may());
        the<QLineEdit>("register:made").setText(QStringLiteral("soon"));
        EXPECT_TRUE(review.text().contains(QLatin1String("not right yet"))) << utf8(review.text());
        the<QLineEdit>("register:made").setText(QStringLiteral("2025-06"));
        for (const char* line : {"Prepared batch B-2026-001 for Cape Reclaim", "Shipped batch B-2026-001",
                                 "Registered A201, DOT-4BA400, tare 16.9 lb", "A103 left the fleet"}) {
            EXPECT_TRUE(review.text().contains(QLatin1String(line))) << line << ": " << utf8(review.text());
        }
        EXPECT_EQ(shop().store().headSeq(), before) << "nothing is written yet";
        press(Qt::Key_Tab);
        write("never");
        EXPECT_FALSE(may());
        press(Qt::Key_A, Qt::ControlModifier);
        press(Qt::Key_Delete);
        press(Qt::Key_Tab);
        write("swapped by the driver");
        EXPECT_TRUE(may());
        asked = true;
        press(Qt::Key_Return);
    });
    the<QAction>("act:exchange").trigger();
    QApplication::processEvents();
    EXPECT_TRUE(asked);
    EXPECT_EQ(its("A103").condition, Condition::retired);
    EXPECT_EQ(its("A103").conditionNote, "swapped by the driver");
    EXPECT_TRUE(its("A103").content.empty());
    EXPECT_TRUE(its("A201").evacuated);
    EXPECT_EQ(batch(shop(), "B-2026-001").value().net(), lb("14.6"));
    // One step, and one Ctrl+Z takes it back.
    QApplication::setActiveWindow(&window());
    QTest::keyClick(&window(), Qt::Key_Z, Qt::ControlModifier);
    QApplication::processEvents();
    EXPECT_EQ(its("A103").condition, Condition::serviceable);
    EXPECT_EQ(net("A103"), "14.6 lb");
    EXPECT_FALSE(card(shop(), "A201"));
}

TEST_F(ExchangeWindowTest, WhatIsBoughtInTheOneThatCameIsNewOrReclaimed) {
    ExchangeDialog dialog(window().desk(), QStringLiteral("A101"), &window());
    dialog.show();
    type("register:serial", "A202");
    type("register:specification", "DOT-4BA400");
    type("register:capacity", "47.7 lb");
    type("register:tare", "27 lb");
    type("register:made", "2024-03");
    the<QTabWidget>("registerPages").setCurrentIndex(1);
    auto& state = the<QComboBox>("registerGasState");
    EXPECT_EQ(state.findData(QStringLiteral("recovered")), -1);
    state.setCurrentIndex(state.findData(QStringLiteral("reclaimed")));
    EXPECT_FALSE(the<QLineEdit>("register:filled").isVisible());
    type("registerGross", "52 lb");
    type("register:gas", "r410a");
    the<QTabWidget>("registerPages").setCurrentIndex(2);
    the<QComboBox>("exchangeParty").setCurrentIndex(2);
    EXPECT_TRUE(the<QLabel>("exchangeReview")
                    .text()
                    .contains(QLatin1String("Got 25.0 lb of R-410A from Estuary Supply in A202")))
        << utf8(the<QLabel>("exchangeReview").text());
    click("registerRecord");
    EXPECT_EQ(net("A202"), "25.0 lb"); // 52 less 27
    EXPECT_EQ(its("A202").content.parts().begin()->first.state, GasState::reclaimed);
    EXPECT_EQ(its("A101").condition, Condition::retired);
}

TEST_F(ExchangeWindowTest, TheOwnerIsThatOfTheOtherUnlessSaid) {
    NewCylinder theirs = weekCylinder("C1", "DOT-4BA400", "26.2", "17.0", "2024-10");
    theirs.plate.owner = Owner::parse("customer: Ansel Harbor Cold Storage").value();
    ASSERT_TRUE(registerCylinder(shop(), theirs).ok());
    ExchangeDialog dialog(window().desk(), QStringLiteral("C1"), &window());
    dialog.show();
    EXPECT_EQ(the<QComboBox>("registerOwnerKind").currentData().toString(), QStringLiteral("customer"));
    EXPECT_EQ(the<QLineEdit>("register:owner").text(), QStringLiteral("Ansel Harbor Cold Storage"));
    type("register:serial", "C2");
    type("register:specification", "DOT-4BA400");
    type("register:capacity", "26.2 lb");
    type("register:tare", "17 lb");
    type("register:made", "2024-03");
    the<QComboBox>("registerOwnerKind").setCurrentIndex(0);
    the<QTabWidget>("registerPages").setCurrentIndex(2);
    the<QComboBox>("exchangeParty").setCurrentIndex(1);
    EXPECT_EQ(the<FindingCard>("finding:exchange.customer-cylinder").finding().severity, Severity::caution);
    EXPECT_TRUE(the<QPushButton>("registerRecord").isEnabled()) << "it happened";
}

TEST_F(ExchangeWindowTest, ASettlementAsksForNothingThatCameAtTheCounter) {
    CounterExchange exchange;
    exchange.out = "A103";
    exchange.party = "reclaimer:Cape Reclaim";
    exchange.came = weekCylinder("A201", "DOT-4BA400", "26.2", "16.9", "2025-06");
    const ExchangedAtCounter done = exchangeAtCounter(shop(), exchange);
    ASSERT_TRUE(done.recorded.ok());
    ReceiptLine line{"A103", lb("31.6"), lb("17.0")};
    line.exchange = "A201"; // their receipt names it too
    ASSERT_TRUE(receiveBatch(shop(), done.batch, {"R-1"}, {line}).ok());
    SettleDialog dialog(window().desk(), batch(shop(), done.batch).value(), &window());
    dialog.show();
    auto& fate = the<QComboBox>("settleFate:A103");
    EXPECT_FALSE(fate.isEnabled());
    EXPECT_EQ(fate.currentText(), QStringLiteral("exchanged, A201 came"));
    EXPECT_FALSE(the<QLineEdit>("settleSerial:A103").isEnabled());
    click("settleEnter");
    EXPECT_EQ(batch(shop(), done.batch).value().status, "settled");
    EXPECT_EQ(its("A103").condition, Condition::retired);
}
