// A walk along the racks in the window, with keys alone: scan, weigh, Enter; what varies, why, and mended.
// Book gross in pounds: A101 27.0, A102 28.1, A103 17.0 + 14.6 = 31.6, A105 27.9 + 20.0 = 47.9.
#include <fstream>

#include "tests/gui/support/gui_shop.h"

#include <QAction>
#include <QComboBox>
#include <QFileInfo>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QTabWidget>
#include <QTableWidget>

#include "ui/kit.h"
#include "ui/questions.h"
#include "ui/stocktake_dialog.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class WindowStocktakeTest : public GuiTest {
protected:
    void SetUp() override {
        GuiTest::SetUp();
        the<QAction>("actionStocktake").trigger();
        QTest::qWait(0);
    }
    void TearDown() override {
        for (QWidget* top : QApplication::topLevelWidgets()) {
            if (top->objectName() == QLatin1String("stocktakeDialog")) {
                top->close();
            }
        }
        QTest::qWait(0);
        GuiTest::TearDown();
    }
    /// A scanner types the number and Enter; the person the weight and Enter.
    void weighed(const char* serial, const char* gross) {
        auto& number = the<QLineEdit>("stockSerial");
        QTest::keyClicks(&number, QLatin1String(serial));
        QTest::keyClick(&number, Qt::Key_Return);
        auto& weight = the<QLineEdit>("stockGross");
        QTest::keyClicks(&weight, QLatin1String(gross));
        QTest::keyClick(&weight, Qt::Key_Return);
    }
    [[nodiscard]] int rowOf(const char* serial) {
        auto& table = the<QTableWidget>("stockTable");
        for (int row = 0; row < table.rowCount(); ++row) {
            if (table.item(row, 0)->text() == QLatin1String(serial)) {
                return row;
            }
        }
        return -1;
    }
    [[nodiscard]] std::string verdict(const char* serial) {
        const int row = rowOf(serial);
        return row < 0 ? "not in the list" : utf8(the<QTableWidget>("stockTable").item(row, 6)->text());
    }
    [[nodiscard]] std::string said() { return utf8(the<QLabel>("stockSaid").text()); }
    void chooseRow(const char* serial) { the<QTableWidget>("stockTable").selectRow(rowOf(serial)); }
    [[nodiscard]] std::string firstCause() {
        auto& causes = the<QTableWidget>("stockCauses");
        return causes.rowCount() == 0 ? "none" : utf8(causes.item(0, 0)->text());
    }
};

} // namespace

TEST_F(WindowStocktakeTest, ScanWeighEnterAndTheNext) {
    weighed("a103", "31.6");
    EXPECT_EQ(verdict("A103"), "✓ agrees");
    EXPECT_TRUE(the<QLineEdit>("stockSerial").text().isEmpty());
    EXPECT_EQ(QApplication::focusWidget(), &the<QLineEdit>("stockSerial"));
    const int missing = the<QListWidget>("stockNotSeen").count();
    weighed("A105", "45.9 lb");
    EXPECT_EQ(verdict("A105"), "▲ varies");
    EXPECT_EQ(the<QListWidget>("stockNotSeen").count(), missing - 1);
    // The newest is on top and chosen; its causes stand below.
    EXPECT_EQ(rowOf("A105"), 0);
    EXPECT_EQ(firstCause(), "release");
    EXPECT_TRUE(the<QLabel>("stockAdvice").text().contains(QStringLiteral("leak")));
    EXPECT_EQ(utf8(the<QLabel>("stockCounts").text()), "2 weighed, 1 agree, 1 vary");
}

TEST_F(WindowStocktakeTest, SaysWhatIsWrongAndTakesNothing) {
    weighed("A103", "heavy");
    EXPECT_EQ(rowOf("A103"), -1);
    EXPECT_NE(said().find("cannot be read"), std::string::npos) << said();
    EXPECT_EQ(QApplication::focusWidget(), &the<QLineEdit>("stockGross"));
    type("stockGross", "31.6 lb");
    QTest::keyClick(&the<QLineEdit>("stockGross"), Qt::Key_Return);
    EXPECT_EQ(verdict("A103"), "✓ agrees");
    weighed("A103", "47.9 lb");
    EXPECT_NE(said().find("weighed before"), std::string::npos) << said();
    EXPECT_EQ(the<QTableWidget>("stockTable").rowCount(), 1);
    weighed("A1O5", "47.9 lb");
    EXPECT_NE(said().find("did you mean A105"), std::string::npos) << said();
    EXPECT_EQ(verdict("A1O5"), "▲ not in the register");
    // What was taken wrongly goes again.
    chooseRow("A1O5");
    the<QTableWidget>("stockTable").setFocus();
    QTest::keyClick(&the<QTableWidget>("stockTable"), Qt::Key_Delete);
    EXPECT_EQ(rowOf("A1O5"), -1);
}

TEST_F(WindowStocktakeTest, SwappedNumbersAreExchangedBeforeAnythingIsWritten) {
    const Sequence head = shop().store().headSeq();
    weighed("A103", "47.9 lb");
    weighed("A105", "31.6 lb");
    EXPECT_EQ(firstCause(), "swapped");
    questions::queueAnswer(QStringLiteral("yes"));
    click("stockMend");
    EXPECT_EQ(verdict("A103"), "✓ agrees");
    EXPECT_EQ(verdict("A105"), "✓ agrees");
    EXPECT_EQ(shop().store().headSeq(), head);
}

TEST_F(WindowStocktakeTest, ATicketEnteredTwiceIsReversedOnConsent) {
    CheckIn ticket;
    ticket.serial = "A105";
    ticket.moved = lb("4.0");
    ticket.from = "system:BRIGHTWATER/STORE-2";
    ASSERT_TRUE(checkIn(shop(), ticket).ok());
    ASSERT_TRUE(checkIn(shop(), ticket).ok());
    EXPECT_EQ(net("A105"), "28.0 lb");
    weighed("A105", "51.9 lb");
    EXPECT_EQ(firstCause(), "entered twice");
    questions::queueAnswer({});
    click("stockMend");
    EXPECT_EQ(net("A105"), "28.0 lb") << "thought better of it";
    questions::queueAnswer(QStringLiteral("yes"));
    click("stockMend");
    EXPECT_EQ(net("A105"), "24.0 lb");
    EXPECT_EQ(verdict("A105"), "✓ agrees");
}

TEST_F(WindowStocktakeTest, TheWeighingsAreRecordedAndTheReportIsWritten) {
    weighed("A103", "31.6 lb");
    weighed("A105", "45.9 lb");
    const QString path = qt(file("report.pdf"));
    auto& dialog = the<StocktakeDialog>("stocktakeDialog");
    EXPECT_TRUE(dialog.writePdf(path));
    EXPECT_GT(QFileInfo(path).size(), 5'000);
    EXPECT_FALSE(dialog.writePdf(QStringLiteral("/nowhere/report.pdf")));
    const Sequence head = shop().store().headSeq();
    questions::queueAnswer(QStringLiteral("yes"));
    click("stockRecord");
    EXPECT_EQ(shop().store().headSeq(), head + 2);
    EXPECT_EQ(net("A105"), "18.0 lb");
    EXPECT_EQ(verdict("A105"), "✓ agrees");
    EXPECT_EQ(said(), "2 weighings recorded.");
    const Entry entry = shop().store().entry(head + 2).value();
    EXPECT_EQ(entry.body["note"], "stocktake 2026-09-14");
    // Undo takes them back, here as everywhere, and the list follows.
    the<QAction>("actionUndo").trigger();
    EXPECT_EQ(net("A105"), "20.0 lb");
    EXPECT_EQ(verdict("A105"), "▲ varies");
}

TEST_F(WindowStocktakeTest, AWiderScaleMakesADifferenceNoise) {
    weighed("A105", "48.4 lb");
    EXPECT_EQ(verdict("A105"), "▲ varies");
    type("stockScaleError", "0.6 lb");
    EXPECT_EQ(verdict("A105"), "✓ agrees");
    type("stockPlace", "rack 9");
    EXPECT_EQ(the<QListWidget>("stockNotSeen").count(), 0);
}

// 'Gross' is what an earlier walk found. Put right, the rows are read again, and what was typed stays.
TEST_F(WindowStocktakeTest, ASheetIsTakenAndItsColumnsArePutRight) {
    weighed("A105", "47.9 lb");
    const std::string sheet = file("racks.csv");
    std::ofstream(sheet)
        << "Serial,Gross,Today\nA101,30.0 lb,27.0 lb\nA103,35.0 lb,31.6 lb\nA102,much,28.1 lb\n";
    auto& dialog = the<StocktakeDialog>("stocktakeDialog");
    EXPECT_TRUE(dialog.takeSheet(QString::fromStdString(sheet)));
    EXPECT_EQ(verdict("A101"), "▲ varies");
    EXPECT_EQ(verdict("A102"), "not in the list");
    EXPECT_NE(said().find("1 row is refused"), std::string::npos) << said();
    auto& read = the<QTableWidget>("stockRead");
    EXPECT_EQ(read.rowCount(), 3);
    EXPECT_EQ(read.item(2, 1)->text(), QStringLiteral("▲ refused"));
    auto& box = the<QComboBox>("stockColumn:gross");
    box.setCurrentIndex(box.findText(QStringLiteral("Today")));
    emit box.activated(box.currentIndex());
    QTest::qWait(0);
    for (const char* serial : {"A101", "A102", "A103", "A105"}) {
        EXPECT_EQ(verdict(serial), "✓ agrees") << serial;
    }
    EXPECT_EQ(the<QTableWidget>("stockTable").rowCount(), 4);
    EXPECT_EQ(the<QTableWidget>("stockRead").item(2, 1)->text(), QStringLiteral("✓ read"));
}

TEST_F(WindowStocktakeTest, ASheetWithoutASerialShowsItsColumns) {
    const std::string sheet = file("racks.csv");
    std::ofstream(sheet) << "Tag on it,Weight (lb)\nA101,27.0\n";
    auto& dialog = the<StocktakeDialog>("stocktakeDialog");
    EXPECT_FALSE(dialog.takeSheet(QString::fromStdString(sheet)));
    EXPECT_NE(said().find("serial"), std::string::npos) << said();
    EXPECT_TRUE(the<QTableWidget>("stockColumns").isVisible());
    auto& box = the<QComboBox>("stockColumn:serial");
    box.setCurrentIndex(1);
    emit box.activated(1);
    QTest::qWait(0);
    EXPECT_EQ(verdict("A101"), "✓ agrees");
    EXPECT_TRUE(the<QTableWidget>("stockColumns").isVisible()) << "there may be another to put right";
}

TEST_F(WindowStocktakeTest, WhatAnotherDeskWeighedMeanwhileIsComparedAgain) {
    weighed("A105", "45.9 lb");
    int ids = 0;
    const Environment other{TAREBOOK_RESOURCE_DIR, &m_clock,
                            [&ids] { return fmt::format("back-door-{}", ++ids); }, "BACK DOOR"};
    const auto desk = Shop::open(shop().store().path(), other).shop;
    ASSERT_TRUE(desk);
    ASSERT_TRUE(weigh(*desk, "A105", lb("45.9")).ok());
    questions::queueAnswer(QStringLiteral("yes"));
    click("stockRecord");
    EXPECT_NE(said().find("compare"), std::string::npos) << said();
    EXPECT_NE(verdict("A105"), "▲ varies"); // the books follow the scale by now
}
