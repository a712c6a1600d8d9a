// Every place in a small window, in the usual type and in type twice as large: no part is squeezed below what
// it asks for, each is seen whole where it is or once it is scrolled to, and the window grows for none of it.
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
    [[nodiscard]] static QString nameOf(const QWidget& part) {
        const auto* button = qobject_cast<const QAbstractButton*>(&part);
        return part.objectName().isEmpty() && button != nullptr ? button->text() : part.objectName();
    }
    void expectWhole(const Look& look, const std::string& where) {
        QApplication::processEvents();
        const std::string at = fmt::format("{} at {} in {} x {}: ", where, look.factor, look.wide, look.high);
        EXPECT_LE(m_small->width(), look.wide) << at;
        EXPECT_LE(m_small->height(), look.high) << at;
        for (QWidget* part : m_small->centralWidget()->findChildren<QWidget*>()) {
            const bool acts =
                qobject_cast<QPushButton*>(part) != nullptr || qobject_cast<QCheckBox*>(part) != nullptr ||
                qobject_cast<QComboBox*>(part) != nullptr ||
                qobject_cast<QAbstractSpinBox*>(part) != nullptr || qobject_cast<QLineEdit*>(part) != nullptr;
            if (!acts || !part->isVisible() || part->objectName().startsWith(QStringLiteral("qt_"))) {
                continue;
            }
            const std::string name = at + utf8(nameOf(*part));
            const QSize least = part->minimumSizeHint().expandedTo(part->minimumSize());
            EXPECT_GE(part->height(), least.height()) << name << " is squeezed";
            EXPECT_GE(part->width(), qobject_cast<QLineEdit*>(part) != nullptr ? 1 : least.width())
                << name << " is squeezed";
            for (QWidget* up = part->parentWidget(); up != nullptr; up = up->parentWidget()) {
                if (auto* area = qobject_cast<QScrollArea*>(up)) {
                    area->ensureWidgetVisible(part, 0, 0);
                }
            }
            QApplication::processEvents();
            EXPECT_EQ(part->visibleRegion().boundingRect(), part->rect()) << name << " is cut off";
        }
    }

    QFont m_usual;
    std::unique_ptr<MainWindow> m_small;
};

constexpr Look kLooks[] = {{1, 1000, 700}, {1, 1320, 750}, {2, 1366, 700}, {2, 1366, 1000}};

} // namespace

TEST_F(SmallWindow, EveryPlaceIsSeenWhole) {
    for (const Look& look : kLooks) {
        MainWindow& small = made(look);
        for (const QString& name : small.placeNames()) {
            small.openPlace(name);
            expectWhole(look, utf8(name));
        }
    }
}

TEST_F(SmallWindow, TheBatchIsSeenWholeWithItsProposal) {
    for (const Look& look : kLooks) {
        made(look).openPlace(QStringLiteral("returns"));
        ASSERT_TRUE(chooseIn(its<QComboBox>("batchReclaimer"), QStringLiteral("Cape Reclaim")));
        its<QPushButton>("batchPropose").click();
        ASSERT_TRUE(its<QLabel>("batchProposal").isVisible());
        expectWhole(look, "returns with a proposal");
        if (look.factor == 1) { // at once, without scrolling
            for (const char* name : {"batchPrepare", "batchShip", "batchSettle"}) {
                auto& button = its<QPushButton>(name);
                EXPECT_EQ(button.visibleRegion().boundingRect(), button.rect()) << name;
            }
        }
    }
}

TEST_F(SmallWindow, TheCounterIsSeenWhole) {
    for (const Look& look : kLooks) {
        MainWindow& small = made(look);
        small.openPlace(QStringLiteral("jobs"));
        auto& tabs = its<QTabWidget>("jobsTabs");
        for (int tab = 0; tab < tabs.count(); ++tab) {
            tabs.setCurrentIndex(tab);
            expectWhole(look, utf8(tabs.tabText(tab)));
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
