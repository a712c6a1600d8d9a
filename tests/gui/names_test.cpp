// People, systems and parties in their dialog, by keys: what is cleared is taken away, and who destroys gas
// is entered and chosen for a batch without the command line.
#include "tests/gui/support/gui_shop.h"

#include <QApplication>
#include <QComboBox>
#include <QLineEdit>
#include <QPushButton>
#include <QTabWidget>
#include <QTableWidget>

#include "core/shop/returns.h"
#include "ui/kit.h"
#include "ui/names_dialog.h"
#include "ui/questions.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class NamesTest : public GuiTest {
protected:
    /// As a person types into a cell: chosen, opened, all of it replaced, Enter.
    static void typeInto(QTableWidget& list, int row, int column, const char* text) {
        list.setFocus();
        list.setCurrentCell(row, column);
        QTest::keyClick(&list, Qt::Key_F2);
        QApplication::processEvents();
        auto* cell = list.findChild<QLineEdit*>();
        ASSERT_NE(cell, nullptr);
        cell->selectAll();
        QTest::keyClick(cell, Qt::Key_Delete);
        QTest::keyClicks(cell, QString::fromUtf8(text));
        QTest::keyClick(cell, Qt::Key_Return);
        QApplication::processEvents();
        QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete); // of the editor
    }
    static int rowOf(const QTableWidget& list, const char* name) {
        const auto found = list.findItems(QString::fromUtf8(name), Qt::MatchExactly);
        return found.isEmpty() ? -1 : found.front()->row();
    }
    [[nodiscard]] Person person(const char* name) {
        for (const Person& one : people(shop())) {
            if (one.name == name) {
                return one;
            }
        }
        return {};
    }
};

} // namespace

TEST_F(NamesTest, AClearedCellTakesAwayWhatItSaid) {
    NamesDialog dialog(window().desk(), &window());
    dialog.show();
    QApplication::setActiveWindow(&dialog);
    ASSERT_TRUE(person("MORGAN VALE").certificateExpires);
    auto& list = the<QTableWidget>("namesPeople");
    typeInto(list, rowOf(list, "MORGAN VALE"), 3, "");
    click("namesEnter");
    EXPECT_FALSE(person("MORGAN VALE").certificateExpires);
    EXPECT_EQ(person("MORGAN VALE").certificate, "Type II") << "what was not touched stays";
    EXPECT_TRUE(person("JULES ARBOR").certificateExpires);
    EXPECT_EQ(list.item(rowOf(list, "MORGAN VALE"), 3)->text(), QString());
    typeInto(list, rowOf(list, "MORGAN VALE"), 2, "");
    click("namesEnter");
    EXPECT_EQ(person("MORGAN VALE").certificate, "");
    dialog.findChild<QTabWidget*>()->setCurrentIndex(1);
    auto& systems = the<QTableWidget>("namesSystems");
    typeInto(systems, rowOf(systems, "HARBOR/DOCK-1"), 6, "Quay 7");
    click("namesEnter");
    ASSERT_EQ(systemNamed(shop(), "HARBOR/DOCK-1")->address, "Quay 7");
    typeInto(systems, rowOf(systems, "HARBOR/DOCK-1"), 6, "");
    typeInto(systems, rowOf(systems, "HARBOR/DOCK-1"), 3, "");
    click("namesEnter");
    EXPECT_EQ(systemNamed(shop(), "HARBOR/DOCK-1")->address, "");
    EXPECT_FALSE(systemNamed(shop(), "HARBOR/DOCK-1")->nominalCharge);
}

TEST_F(NamesTest, ADestroyerIsEnteredAndGetsABatch) {
    {
        NamesDialog dialog(window().desk(), &window());
        dialog.show();
        QApplication::setActiveWindow(&dialog);
        QTest::keyClick(&dialog, Qt::Key_D, Qt::AltModifier); // its letter
        QApplication::processEvents();
        auto& list = the<QTableWidget>("namesDestroyers");
        ASSERT_TRUE(list.isVisible());
        typeInto(list, list.rowCount() - 1, 0, "Hearth Thermal");
        typeInto(list, list.rowCount() - 1, 1, "Kiln Road 4");
        click("namesEnter");
    }
    const auto known = parties(shop(), "destroyer");
    ASSERT_EQ(known.size(), 1U);
    EXPECT_EQ(known.front().address, "Kiln Road 4");
    window().openPlace(QStringLiteral("returns"));
    auto& taker = the<QComboBox>("batchReclaimer");
    ASSERT_GE(taker.findText(QStringLiteral("Hearth Thermal (destroyer)")), 0);
    choose("batchReclaimer", "Hearth Thermal");
    click("batchPropose"); // it has no terms, and says so
    scan("A103");
    ASSERT_TRUE(the<QPushButton>("batchPrepare").isEnabled());
    click("batchPrepare");
    const auto all = batches(shop()).value();
    ASSERT_EQ(all.size(), 1U);
    EXPECT_EQ(all.front().reclaimer, "Hearth Thermal");
    EXPECT_EQ(all.front().lines.size(), 1U);
    // What was set aside is not offered a second time, and says for which batch it is.
    auto& candidates = the<QTableWidget>("candidates");
    const int row = rowOf(candidates, "A103");
    ASSERT_GE(row, 0);
    EXPECT_FALSE(candidates.item(row, 0)->flags() & Qt::ItemIsUserCheckable);
    EXPECT_TRUE(candidates.item(row, candidates.columnCount() - 1)
                    ->text()
                    .contains(QStringLiteral("Set aside for batch ") + qt(all.front().name)))
        << utf8(candidates.item(row, candidates.columnCount() - 1)->text());
}
