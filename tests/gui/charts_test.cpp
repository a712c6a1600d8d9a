// The pictures of the books, by keys and by the mouse. Figures are those of the week at the counter; due
// months by 49 CFR 180.209(a): five years from the mark of a DOT 4BA or 4BW.
#include <QComboBox>
#include <QDateEdit>
#include <QFile>
#include <QHeaderView>
#include <QImage>
#include <QLabel>
#include <QPainter>
#include <QPushButton>
#include <QTableWidget>
#include <QTemporaryDir>

#include "core/shop/questions.h"
#include "tests/gui/support/question_window.h"
#include "ui/books_page.h"
#include "ui/chart_drawing.h"
#include "ui/chart_scene.h"
#include "ui/flow_drawing.h"
#include "ui/kit.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class ChartsTest : public QuestionWindow {
protected:
    void SetUp() override {
        GuiTest::SetUp();
        window().openPlace(QStringLiteral("books"));
    }
    void ask(const char* question) {
        pick(question);
        click("bookAsk");
        QApplication::processEvents();
    }
    [[nodiscard]] ChartDrawing& chart() { return the<ChartDrawing>("chartDrawing"); }
    [[nodiscard]] std::string pointWords() { return utf8(the<QLabel>("bookPoint").text()); }
    [[nodiscard]] int rows() { return the<QTableWidget>("bookTable").rowCount(); }
    [[nodiscard]] int entries() { return the<QTableWidget>("bookEntries").rowCount(); }
    void press(Qt::Key key) { QTest::keyClick(&chart(), key); }
    [[nodiscard]] static QPalette onPaper() {
        return {Qt::black, Qt::white, Qt::lightGray, Qt::darkGray, Qt::gray, Qt::black, Qt::white};
    }
    /// A scene of 900 by 400.
    [[nodiscard]] static QImage painted(ChartScene& scene) {
        QImage image(900, 400, QImage::Format_RGB32);
        image.fill(Qt::white);
        QPainter painter(&image);
        scene.paint(painter, QRectF(0, 0, 900, 400));
        return image;
    }
};

} // namespace

TEST_F(ChartsTest, RetestsAreGoneThroughByKeysAndByTheMouse) {
    EXPECT_FALSE(chart().isVisible());
    ask("falls-due");
    ASSERT_TRUE(chart().isVisible());
    EXPECT_FALSE(the<FlowDrawing>("flowDrawing").isVisible());
    EXPECT_EQ(rows(), 6) << "of seven one is made for one filling";
    EXPECT_EQ(pointWords(), "Overdue: 1 cylinder, not filled until tested");
    EXPECT_NE(chart().accessibleName().indexOf(QStringLiteral("Retests")), -1);
    EXPECT_NE(chart().accessibleDescription().indexOf(QStringLiteral("Due in 2027-05: 1 cylinder")), -1);
    chart().setFocus();
    press(Qt::Key_Return);
    ASSERT_EQ(rows(), 1);
    EXPECT_EQ(cell(0, 2), "A101"); // 2021-03 + 5 years
    EXPECT_TRUE(the<QPushButton>("bookWhole").isEnabled());
    press(Qt::Key_Escape);
    EXPECT_EQ(rows(), 6);
    EXPECT_FALSE(the<QPushButton>("bookWhole").isEnabled());
    press(Qt::Key_End);
    EXPECT_EQ(pointWords(), "Due in 2030: 1 cylinder"); // A107, 2025-02 + 5
    press(Qt::Key_Right);
    EXPECT_EQ(pointWords(), "Due in 2030: 1 cylinder") << "there is nothing behind the last";
    press(Qt::Key_Left);
    press(Qt::Key_Space);
    ASSERT_EQ(rows(), 1);
    EXPECT_EQ(cell(0, 2), "A103"); // 2024-10 + 5
    press(Qt::Key_Home);
    EXPECT_EQ(chart().chosen(), 0);
    // September 2026 is the first after what is overdue, so May 2027 the ninth.
    QTest::mouseClick(&chart(), Qt::LeftButton, {}, chart().placeOf(9).center());
    EXPECT_EQ(chart().chosen(), 9);
    ASSERT_EQ(rows(), 1);
    EXPECT_EQ(cell(0, 2), "A104"); // 2022-05 + 5
    QTemporaryDir folder;
    const QString sheet = folder.filePath(QStringLiteral("due.csv"));
    ASSERT_TRUE(window().findChild<BooksPage*>()->saveCsv(sheet));
    QFile written(sheet);
    ASSERT_TRUE(written.open(QIODevice::ReadOnly));
    EXPECT_EQ(written.readAll().count("\r\n"), 7)
        << "the heading and the answer whole, not of the point alone";
    click("bookWhole");
    EXPECT_EQ(rows(), 6);
    EXPECT_TRUE(chart().hasFocus());
}

TEST_F(ChartsTest, HoldingsListTheEntriesOfAPoint) {
    CheckIn facts; // 59.9 - 28.1 = 31.8 lb
    facts.serial = "A102";
    facts.grossBefore = lb("28.1");
    facts.grossAfter = lb("59.9");
    facts.from = "system:ST-ALDER/RTU-3";
    facts.person = "MORGAN VALE";
    setTime("2026-09-15T15:00:00Z");
    window().desk().notifyRecorded(checkIn(shop(), facts));
    the<QDateEdit>("bookFrom").setDate(QDate(2026, 9, 14));
    the<QDateEdit>("bookTo").setDate(QDate(2026, 9, 15));
    ask("held");
    ASSERT_TRUE(chart().isVisible());
    EXPECT_TRUE(the<QComboBox>("bookGas").isVisible());
    EXPECT_NE(pointWords().find("End of 2026-09-13: nothing"), std::string::npos) << pointWords();
    chart().setFocus();
    press(Qt::Key_End);
    press(Qt::Key_Enter);
    // 20.0 + 25.0 + 31.8 lb of R-410A x 0.45359237 kg, and 14.6 lb of R-22.
    ASSERT_EQ(rows(), 2);
    EXPECT_EQ(cell(0, 1), "R-22");
    EXPECT_EQ(cell(0, 2), "6.622449");
    EXPECT_EQ(cell(1, 1), "R-410A");
    EXPECT_EQ(cell(1, 2), "34.835893");
    ASSERT_EQ(entries(), 1);
    EXPECT_NE(the<QTableWidget>("bookEntries").item(0, 3)->text().indexOf(QStringLiteral("31.8 lb")), -1);
    // Nothing lies over another thing: picture, the words of its point, table, title, entries.
    window().resize(1320, 750);
    QApplication::processEvents();
    const auto edges = [this](QWidget& widget) {
        const int top = widget.mapTo(&window(), QPoint()).y();
        return std::pair(top, top + widget.height());
    };
    auto& list = the<QTableWidget>("bookEntries");
    EXPECT_LE(edges(chart()).second, edges(the<QPushButton>("bookWhole")).first);
    EXPECT_LE(edges(the<QPushButton>("bookWhole")).second, edges(the<QTableWidget>("bookTable")).first);
    EXPECT_LT(edges(the<QTableWidget>("bookTable")).second, edges(list).first);
    const int secondRow = edges(*list.viewport()).first + 2 * list.verticalHeader()->defaultSectionSize();
    EXPECT_LE(secondRow, edges(list).second);
    EXPECT_LE(secondRow, window().height()) << "two entries are read without scrolling";
    choose("bookGas", "owner:Brightwater Grocers");
    ask("held");
    chart().setFocus();
    press(Qt::Key_End);
    press(Qt::Key_Enter);
    ASSERT_EQ(rows(), 1);
    EXPECT_EQ(cell(0, 2), "9.071847"); // 20.0 lb
    EXPECT_EQ(entries(), 0) << "nothing of theirs moved on the last day";
    // As it was written on the day before.
    choose("bookGas", "R-410A");
    type("bookAsOf", "2026-09-14");
    ask("held");
    press(Qt::Key_End);
    press(Qt::Key_Enter);
    ASSERT_EQ(rows(), 1);
    EXPECT_EQ(cell(0, 2), "20.411656"); // 45.0 lb
    type("bookAsOf", "");
    ask("bought");
    EXPECT_FALSE(chart().isVisible()) << "this answer has no picture";
    EXPECT_FALSE(the<QPushButton>("bookDrawing").isEnabled());
}

// On paper it is drawn as soon as it is made: axis, its numbers and its title are there without an event.
TEST_F(ChartsTest, TheAxisIsDrawnAtOnce) {
    const auto answer = answered(shop(), *questionNamed("falls-due"), {});
    ASSERT_TRUE(answer && answer.value().chart);
    ChartScene scene(*answer.value().chart, onPaper(), QApplication::font(), QSizeF(900, 400));
    const QImage image = painted(scene);
    const QRectF first = scene.stripOf(0);
    int inked = 0; // left of the plot, beside its upper half
    for (int y = static_cast<int>(first.top()) - 5; y < static_cast<int>(first.center().y()); ++y) {
        for (int x = 0; x < static_cast<int>(first.left()) - 4; ++x) {
            inked += qGray(image.pixel(x, y)) < 128 ? 1 : 0;
        }
    }
    EXPECT_GT(inked, 20);
}

// Books that are below zero are drawn below a line at zero, and inside the plot.
TEST_F(ChartsTest, WhatIsBelowZeroStandsInsideThePlot) {
    AnswerChart figures;
    figures.shape = AnswerChart::Shape::lines;
    figures.unit = AnswerChart::Unit::kilograms;
    for (const char* label : {"2026-01", "2026-02", "2026-03", "2026-04"}) {
        figures.points.emplace_back().label = label;
    }
    figures.series.push_back({"R-22", {10'000'000, 10'000'000, 10'000'000, 10'000'000}});
    ChartScene above(figures, onPaper(), QApplication::font(), QSizeF(900, 400));
    figures.series.push_back({"R-32", {-8'000'000, -8'000'000, -8'000'000, -8'000'000}});
    ChartScene scene(figures, onPaper(), QApplication::font(), QSizeF(900, 400));
    const QRectF strip = scene.stripOf(1);
    /// Dark pixels of the strip, from y on.
    const auto inked = [&strip](const QImage& image, qreal from, qreal to) {
        int dark = 0;
        for (int y = static_cast<int>(from); y < static_cast<int>(to); ++y) {
            for (int x = static_cast<int>(strip.left()); x < static_cast<int>(strip.right()); ++x) {
                dark += qGray(image.pixel(x, y)) < 128 ? 1 : 0;
            }
        }
        return dark;
    };
    const QImage image = painted(scene);
    const qreal quarter = strip.height() / 4;
    EXPECT_GT(inked(image, strip.center().y() - 4, strip.center().y() + 4), 0) << "the line at zero";
    EXPECT_GT(inked(image, strip.bottom() - quarter, strip.bottom() - 2), 0) << "the line of R-32";
    EXPECT_EQ(inked(painted(above), strip.center().y() - 4, strip.center().y() + 4), 0)
        << "without what is below zero, zero is the lower edge";
}

TEST_F(ChartsTest, APictureIsPutOnPaperAndGrowsWithTheType) {
    ask("falls-due");
    ASSERT_TRUE(the<QPushButton>("bookDrawing").isEnabled());
    const QString path = qt(file("retests.pdf"));
    ASSERT_TRUE(
        chart().writePdf(path, QStringLiteral("Eight cylinders"), QStringLiteral("Books at 0"), true));
    QFile written(path);
    ASSERT_TRUE(written.open(QIODevice::ReadOnly));
    EXPECT_TRUE(written.readAll().startsWith("%PDF-"));
    EXPECT_FALSE(chart().writePdf(qt(file("no/such/folder.pdf")), {}, {}, true));
    const QSize before = chart().sizeHint();
    QFont twice = chart().font();
    twice.setPointSizeF(twice.pointSizeF() * 2);
    chart().setFont(twice);
    EXPECT_GT(chart().sizeHint().height(), before.height() * 3 / 2);
    // Every point has a strip of its own within the picture, whatever its size.
    for (const int times : {1, 2}) {
        chart().resize(chart().sizeHint() * times);
        int last = -1;
        for (int point = 0; point < 20; ++point) {
            const QRect strip = chart().placeOf(point);
            EXPECT_GT(strip.center().x(), last);
            EXPECT_LE(strip.right(), chart().width());
            last = strip.center().x();
        }
    }
}
