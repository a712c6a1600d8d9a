// The card of a refrigerant, of a mixture, and a mixture that becomes a blend of the shop's own.
#include "tests/gui/support/gui_shop.h"

#include <QComboBox>
#include <QLabel>
#include <QSlider>
#include <QTableWidget>

#include "ui/kit.h"
#include "ui/questions.h"
#include "ui/refrigerant_window.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class RefrigerantCardTest : public GuiTest {};

} // namespace

// ASHRAE 34 composition and safety group of R-454B; figures of R-410A and of R-22 with R-410A from
// tests/standards (a published equation of state each).
TEST_F(RefrigerantCardTest, ShowsTheCardOfARefrigerantAndOfAMixture) {
    RefrigerantWindow card(window().desk(), &window());
    card.show();
    card.showContents(QStringLiteral("R-454B"));
    EXPECT_TRUE(the<QLabel>("refrigerantFacts").text().contains(QStringLiteral("A2L")));
    EXPECT_TRUE(the<QLabel>("refrigerantCautions").text().contains(QStringLiteral("flammable")));
    card.showContents(QStringLiteral("R-410A"));
    EXPECT_TRUE(the<QLabel>("refrigerantAt55").text().startsWith(QStringLiteral("484.")))
        << utf8(the<QLabel>("refrigerantAt55").text());
    EXPECT_EQ(the<QLabel>("refrigerantMark").text(), QStringLiteral("DOT-4BA400"));
    // 80 % of 47.7 lb of water at a specific gravity of 1.062 (the week, step 3).
    type("refrigerantCylinder", "A102");
    EXPECT_TRUE(the<QLabel>("refrigerantCylinderText").text().contains(QStringLiteral("40.5 lb")))
        << utf8(the<QLabel>("refrigerantCylinderText").text());
    // The week, step 14: 201 psig at 70 °F is R-410A, 215 psig is not.
    type("measuredTemperature", "70 F");
    type("measuredPressure", "201 psig");
    EXPECT_TRUE(the<QLabel>("measuredText").text().contains(QStringLiteral("Consistent with R-410A")))
        << utf8(the<QLabel>("measuredText").text());
    type("measuredPressure", "215 psig");
    const QString high = the<QLabel>("measuredText").text();
    EXPECT_TRUE(high.contains(QStringLiteral("higher than R-410A shows"))) << utf8(high);
    EXPECT_TRUE(high.contains(QStringLiteral("of air in the gas space"))) << utf8(high);
    EXPECT_TRUE(high.contains(QStringLiteral("only an analysis"))) << utf8(high);
    type("measuredPressure", "150 psig");
    EXPECT_TRUE(the<QLabel>("measuredText").text().contains(QStringLiteral("no liquid left")));
    type("measuredPressure", "13 furlongs");
    EXPECT_TRUE(the<QLabel>("measuredText").text().contains(QStringLiteral("no gauge pressure")));
    // R-22 70 % with R-410A 30 % at 25 °C: 1267.015 kPa (contaminated-mixtures.csv, row M02).
    choose("refrigerantFirst", "R-22");
    choose("refrigerantSecond", "R-410A");
    the<QSlider>("refrigerantShare").setValue(30);
    auto& table = the<QTableWidget>("refrigerantTable");
    bool found = false;
    for (int row = 0; row < table.rowCount(); ++row) {
        if (table.item(row, 1)->text() == QStringLiteral("25")) {
            EXPECT_NEAR(table.item(row, 3)->text().toDouble(), (1267.015 - 101.325) / 100, 0.03);
            found = true;
        }
    }
    EXPECT_TRUE(found);
    ASSERT_TRUE(card.saveTable(qt(file("table.pdf"))));
    EXPECT_GT(std::filesystem::file_size(file("table.pdf")), 5'000U);
    choose("refrigerantSecond", "");
    the<QComboBox>("refrigerantFirst").setEditText(QStringLiteral("R-99"));
    EXPECT_TRUE(the<QLabel>("refrigerantTitle").text().contains(QStringLiteral("R-99")));
    EXPECT_EQ(table.rowCount(), 0);
}

TEST_F(RefrigerantCardTest, AMixtureBecomesABlendOfTheShopsOwn) {
    RefrigerantWindow card(window().desk(), &window());
    card.show();
    card.showContents(QStringLiteral("R-290"));
    choose("refrigerantSecond", "R-600a");
    the<QSlider>("refrigerantShare").setValue(40);
    questions::queueAnswer(QStringLiteral("name=R-410A"));
    questions::queueAnswer(QStringLiteral("seen"));
    click("refrigerantOwnBlend");
    EXPECT_TRUE(questions::lastTold().contains(QStringLiteral("R-410A"))) << utf8(questions::lastTold());
    const auto head = shop().store().headSeq();
    questions::queueAnswer(QStringLiteral("name=Shop blend 7"));
    click("refrigerantOwnBlend");
    EXPECT_EQ(shop().store().headSeq(), head + 1);
    EXPECT_TRUE(shop().catalogue().designation("shop blend 7"));
    EXPECT_EQ(the<QLabel>("refrigerantTitle").text(), QStringLiteral("Shop blend 7"));
    const QString facts = the<QLabel>("refrigerantFacts").text();
    EXPECT_TRUE(facts.contains(QStringLiteral("own blend"))) << utf8(facts);
    EXPECT_GE(the<QComboBox>("refrigerantSecond").findText(QStringLiteral("Shop blend 7")), 0);
    ASSERT_TRUE(window().desk().undo().ok());
    EXPECT_FALSE(shop().catalogue().designation("shop blend 7"));
    EXPECT_LT(the<QComboBox>("refrigerantSecond").findText(QStringLiteral("Shop blend 7")), 0);
}
