// Every place in a small window, in the usual type and in type twice as large; the check-in without scrolling
// in the usual one.
#include <QAbstractSpinBox>
#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QTabWidget>
#include <QTableWidget>

#include "core/shop/returns.h"
#include "core/shop/terms.h"
#include "tests/gui/support/person.h"
#include "ui/pickers.h"
#include "ui/theme.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

struct Look {
    double factor = 1;
    int wide = 0;
    int high = 0;
};

class SmallWindow : public WeekWindow {
protected:
    SmallWindow() { m_withCylinders = true; }
    void SetUp() override {
        m_usual = QApplication::font();
        WeekWindow::SetUp();
        checkIn("A103", 0, "HARBOR/DOCK-1", "31.6 lb", "45.0 lb");
        checkIn("A105", 0, "HARBOR/DOCK-1", "47.9 lb", "51.9 lb");
        ASSERT_TRUE(prepareBatch(shop(), "B-2026-001", "Cape Reclaim", {"A105"}).ok());
        AcceptanceTerms terms;
        ASSERT_TRUE(readTerm(shop(), "minimum", "500 lb", terms));
        ASSERT_TRUE(setTerms(shop(), "Cape Reclaim", terms).ok());
    }
    void TearDown() override {
        m_small.reset();
        theme::apply(*qApp, false, 1);
        QApplication::setFont(m_usual);
        WeekWindow::TearDown();
    }
    /// A window made in that type, as the program makes it.
    MainWindow& made(const Look& look) {
        m_small.reset();
        theme::apply(*qApp, false, look.factor);
        m_small = std::make_unique<MainWindow>(shop());
        m_small->show();
        m_small->resize(look.wide, look.high);
        QApplication::processEvents();
        return *m_small;
    }
    template <typename Widget> [[nodiscard]] Widget& its(const char* name) {
        return *m_small->findChild<Widget*>(QLatin1String(name));
    }
    QFont m_usual;
    std::unique_ptr<MainWindow> m_small;
};

} // namespace

TEST_F(SmallWindow, EveryPlaceFitsASmallWindow) {
    const QFont usual = QApplication::font();
    for (const auto& [factor, wide] : {std::pair{1.0, 1000}, {2.0, 1366}}) {
        theme::apply(*qApp, false, factor);
        MainWindow its(shop()); // made in that type, as the program makes it
        its.show();
        its.resize(wide, 700);
        for (const QString& name : its.placeNames()) {
            its.openPlace(name);
            QApplication::processEvents();
            EXPECT_LE(its.minimumSizeHint().width(), wide) << utf8(name) << " at " << factor;
            EXPECT_LE(its.width(), wide) << utf8(name) << " at " << factor;
            if (name == QStringLiteral("returns") && factor == 1.0) {
                for (const char* button : {"batchPrepare", "batchShip", "batchSettle"}) {
                    const auto* step = its.findChild<QPushButton*>(QLatin1String(button));
                    EXPECT_EQ(step->visibleRegion().boundingRect(), step->rect()) << button;
                }
            }
            EXPECT_LE(its.height(), factor > 1 ? 1000 : 700) << utf8(name) << " at " << factor;
        }
    }
    QApplication::setFont(usual);
}

// What is filled in is never scrolled sideways.
TEST_F(SmallWindow, TheCheckInIsNotWiderThanItsPlace) {
    MainWindow& small = made({1, 1000, 700});
    emit small.desk().errand(Errand::checkIn, QStringLiteral("A103"));
    QApplication::processEvents();
    for (const QWidget* up = its<QWidget>("inSerial").parentWidget(); up != nullptr;
         up = up->parentWidget()) {
        if (const auto* area = qobject_cast<const QScrollArea*>(up)) {
            EXPECT_EQ(area->horizontalScrollBar()->maximum(), 0);
        }
    }
}

// In the usual window all fields of the check-in are seen at once, whatever is told beside them.
TEST_F(SmallWindow, TheCheckInIsFilledInWithoutScrolling) {
    MainWindow& small = made({1, 1320, 750});
    emit small.desk().errand(Errand::checkIn, QStringLiteral("A103"));
    ASSERT_TRUE(chooseIn(its<QComboBox>("inSystem"), QStringLiteral("HARBOR/DOCK-1")));
    QApplication::processEvents();
    EXPECT_FALSE(its<QLabel>("inLevelAsked").text().isEmpty());
    for (const char* name : {"inSerial", "inTemperature", "inNote", "inBack", "inRecord"}) {
        auto& part = its<QWidget>(name);
        EXPECT_EQ(part.visibleRegion().boundingRect(), part.rect()) << name;
    }
    for (const QWidget* up = its<QWidget>("inSerial").parentWidget(); up != nullptr;
         up = up->parentWidget()) {
        if (const auto* area = qobject_cast<const QScrollArea*>(up)) {
            EXPECT_EQ(area->verticalScrollBar()->maximum(), 0);
        }
    }
}
