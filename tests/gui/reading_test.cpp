// What is only read and asked: the rulebooks with where they apply in the shop, quick figures over the
// telephone. Figures: the week at the counter, 49 CFR 173.304a(a)(2) and 180.209(a).
#include "tests/gui/support/gui_shop.h"

#include <QAction>
#include <QComboBox>
#include <QDateEdit>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QSignalSpy>
#include <QTableWidget>

#include "ui/desk.h"
#include "ui/finding_view.h"
#include "ui/kit.h"
#include "ui/quick_figures.h"
#include "ui/rulebook_window.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class ReadingTest : public GuiTest {
protected:
    int visibleRows() {
        const auto& rows = the<QTableWidget>("rulebookRows");
        int count = 0;
        for (int row = 0; row < rows.rowCount(); ++row) {
            count += rows.isRowHidden(row) ? 0 : 1;
        }
        return count;
    }
};

} // namespace

TEST_F(ReadingTest, ARuleIsReadWithItsSourceAndWhereItApplies) {
    RulebookWindow rules(window().desk(), &window());
    rules.show();
    EXPECT_TRUE(the<QLabel>("rulebookTitle").text().contains(QStringLiteral("49 CFR")));
    ASSERT_TRUE(rules.showRule(QStringLiteral("retest.one-life")));
    EXPECT_EQ(the<QLabel>("rulebookRowTitle").text(), QStringLiteral("retest.one-life"));
    const QString text = the<QLabel>("rulebookRow").text();
    EXPECT_TRUE(text.contains(QStringLiteral("49 CFR"))) << utf8(text);
    EXPECT_TRUE(text.contains(QStringLiteral("Status:"))) << utf8(text);
    EXPECT_TRUE(text.contains(QStringLiteral("Source:"))) << utf8(text);
    auto& uses = the<QListWidget>("rulebookUses");
    ASSERT_EQ(uses.count(), 1);
    EXPECT_EQ(uses.item(0)->text(), QStringLiteral("cylinder:D001"));
    const QSignalSpy asked(&window().desk(), &Desk::showCylinder);
    emit uses.itemActivated(uses.item(0));
    ASSERT_EQ(asked.count(), 1);
    EXPECT_EQ(asked.at(0).at(0).toString(), QStringLiteral("D001"));
    // Six others keep five years.
    ASSERT_TRUE(rules.showRule(QStringLiteral("retest.base-5")));
    EXPECT_EQ(uses.count(), 6);
    EXPECT_FALSE(rules.showRule(QStringLiteral("retest.no-such")));
}

// The name that a finding prints opens the rows behind it, or says what it is where there are none.
TEST_F(ReadingTest, ANameOnAFindingIsLookedUp) {
    RulebookWindow rules(window().desk(), &window());
    rules.show();
    ASSERT_TRUE(rules.showRule(QStringLiteral("leak.rate")));
    EXPECT_EQ(the<QListWidget>("rulebookTables").currentItem()->data(Qt::UserRole).toString(),
              QStringLiteral("leak-thresholds"));
    EXPECT_TRUE(the<QLabel>("rulebookRow").text().contains(QStringLiteral("over the limit for its use")));
    EXPECT_TRUE(the<QLabel>("rulebookRow").text().contains(QStringLiteral("40 CFR")));
    ASSERT_TRUE(rules.showRule(QStringLiteral("fill.shop")));
    EXPECT_EQ(the<QLabel>("rulebookRowTitle").text(), QStringLiteral("fill.shop"));
    EXPECT_TRUE(the<QLabel>("rulebookRow").text().contains(QStringLiteral("hot_van_limit")));
    Finding finding;
    finding.rule = "weight.differs";
    ASSERT_TRUE(rules.showFinding(finding));
    EXPECT_EQ(the<QLabel>("rulebookRowTitle").text(), QStringLiteral("weight.differs"));
}

TEST_F(ReadingTest, EveryTableOfEveryRulebookCanBeRead) {
    RulebookWindow rules(window().desk(), &window());
    rules.show();
    auto& tables = the<QListWidget>("rulebookTables");
    auto& rows = the<QTableWidget>("rulebookRows");
    for (const std::string& name : Rulebook::names()) {
        choose("rulebookWhich", name.c_str());
        const auto book = Rulebook::load(TAREBOOK_RESOURCE_DIR, name, shop().today());
        ASSERT_TRUE(book);
        ASSERT_EQ(tables.count(), static_cast<int>(book.value().tableNames().size()) + 1) << name;
        for (int table = 1; table < tables.count(); ++table) {
            tables.setCurrentRow(table);
            const std::string its = book.value().tableNames()[static_cast<std::size_t>(table) - 1];
            EXPECT_EQ(rows.rowCount(), static_cast<int>(book.value().table(its)->rows.size())) << its;
            EXPECT_FALSE(the<QLabel>("rulebookRow").text().isEmpty()) << its;
        }
        if (name != "us") {
            ASSERT_TRUE(rules.showRule(QStringLiteral("retest.one-life"))) << name;
            EXPECT_TRUE(the<QLabel>("rulebookUsesTitle").text().contains(QStringLiteral("us ")));
        }
    }
    choose("rulebookWhich", "us");
    ASSERT_TRUE(rules.showRule(QStringLiteral("retest.base-5")));
    type("rulebookFind", "one-life");
    EXPECT_EQ(visibleRows(), 1);
    type("rulebookFind", "no such words");
    EXPECT_EQ(visibleRows(), 0);
    type("rulebookFind", "");
    the<QDateEdit>("rulebookDay").setDate(QDate(1999, 1, 1));
    EXPECT_TRUE(the<QLabel>("rulebookTitle").text().contains(QStringLiteral("lies before")));
}

TEST_F(ReadingTest, QuickFiguresForTheCallFromTheRoof) {
    QuickFiguresWindow quick(window().desk(), &window());
    quick.show();
    const auto before = shop().store().headSeq();
    EXPECT_EQ(the<QLabel>("quickGross").text(), QStringLiteral("–"));
    type("quick:specification", "dot 4ba 400");
    type("quick:capacity", "26.2 lb");
    type("quick:tare", "17.0");
    type("quick:contents", "r22");
    EXPECT_EQ(the<QLabel>("quickGross").text(), QStringLiteral("–")) << "the month is missing yet";
    type("quick:made", "10/24");
    type("quick:gross", "31.6");
    // As A103 of the week, which has the same marks and 14.6 lb of R-22 inside.
    const Card same = card(shop(), "A103").value();
    const auto display = shop().display();
    EXPECT_EQ(the<QLabel>("quickGross").text(), qt(display.limit(same.limits.grossToStop)));
    EXPECT_EQ(the<QLabel>("quickNet").text(), qt(display.limit(same.limits.net)));
    EXPECT_EQ(the<QLabel>("quickRoom").text(), qt(display.limit(same.limits.room)));
    EXPECT_EQ(the<QLabel>("quickDue").text(), QStringLiteral("2029-10"));
    EXPECT_TRUE(the<QLabel>("quickPressure").text().contains(QStringLiteral("psig")));
    EXPECT_GT(quick.findChild<FindingView*>()->count(), 4);
    type("quick:gross", "12");
    EXPECT_TRUE(the<QLabel>("quickProblem").text().contains(QStringLiteral("below the tare")));
    EXPECT_EQ(the<QLabel>("quickGross").text(), QStringLiteral("–"));
    type("quick:gross", "31.6");
    type("quick:contents", "R-2Z");
    EXPECT_TRUE(the<QLabel>("quickTold:contents").isVisible());
    EXPECT_EQ(the<QLabel>("quickGross").text(), QStringLiteral("–"));
    type("quick:contents", "R-410A");
    type("quick:specification", "DOT-39");
    EXPECT_TRUE(the<QLabel>("quickProblem").text().contains(QStringLiteral("never refilled")))
        << utf8(the<QLabel>("quickProblem").text());
    EXPECT_EQ(shop().store().headSeq(), before) << "nothing is recorded";
}

TEST_F(ReadingTest, BothAreReachedFromTheMenu) {
    window().findChild<QAction*>(QStringLiteral("actionQuickFigures"))->trigger();
    window().findChild<QAction*>(QStringLiteral("actionRulebooks"))->trigger();
    EXPECT_TRUE(the<QuickFiguresWindow>("quickFigures").isVisible());
    EXPECT_TRUE(the<RulebookWindow>("rulebookWindow").isVisible());
}
