// Which column of a person's sheet is which field, as they say it.
#include "core/exchange/column_choice.h"

#include <gtest/gtest.h>

#include "core/exchange/receipt_rows.h"
#include "core/exchange/stock_rows.h"

using namespace tarebook;

namespace {

Sheet sheetOf(std::string_view text) {
    auto sheet = readSheet(text);
    EXPECT_TRUE(sheet);
    return sheet ? std::move(sheet).value() : Sheet{};
}

int placeIn(const std::string& text, const Sheet& sheet) {
    const auto choice = columnChoiceIn(text, sheet, SheetKind::receipt);
    EXPECT_TRUE(choice) << text << ": " << (choice ? "" : choice.error().text());
    return choice ? choice.value().place : -2;
}

std::string refusal(const std::string& text, const Sheet& sheet) {
    const auto choice = columnChoiceIn(text, sheet, SheetKind::receipt);
    EXPECT_FALSE(choice) << text;
    return choice ? std::string() : choice.error().text();
}

bool holds(const std::string& text, std::string_view part) {
    return text.find(part) != std::string::npos;
}

} // namespace

TEST(ColumnChoice, AColumnIsNamedByItsHeaderOrItsPlace) {
    const Sheet sheet = sheetOf("No,Weight in,Weight out\nA1,29.0,17.0\n");
    EXPECT_EQ(placeIn("serial=No", sheet), 0);
    EXPECT_EQ(placeIn("gross=weight IN", sheet), 1);
    EXPECT_EQ(placeIn(" Tare = Weight out ", sheet), 2);
    EXPECT_EQ(placeIn("tare=#3", sheet), 2);
    EXPECT_EQ(placeIn("oil=", sheet), -1);
}

TEST(ColumnChoice, WhatIsNotThereIsNamedWithWhatIs) {
    const Sheet sheet = sheetOf("No,Weight,Weight\nA1,29.0,17.0\n");
    EXPECT_TRUE(holds(refusal("gross", sheet), "FIELD=COLUMN"));
    EXPECT_TRUE(holds(refusal("mass=Weight", sheet), "serial, gross, tare"));
    EXPECT_TRUE(holds(refusal("gross=Scale", sheet), "'No', 'Weight'"));
    EXPECT_TRUE(holds(refusal("gross=weight", sheet), "stands twice"));
    for (const char* place : {"#0", "#4", "#", "#1x", "#99999999999999999999"}) {
        EXPECT_TRUE(holds(refusal(std::string("gross=") + place, sheet), "#1 to #3")) << place;
    }
}

// 'Received' is guessed to be nothing, and 'Gross' the weight that they shipped back.
TEST(ColumnChoice, WhatIsSaidTakesThePlaceOfWhatWasGuessed) {
    const Sheet sheet = sheetOf("Serial,Gross,Received\nA1,17.5,29.0\n");
    const SheetHabits habits{"lb", "lb", DateOrder::monthFirst};
    const auto guessed = columnsChosen(sheet, SheetKind::stocktake, habits, {});
    ASSERT_TRUE(guessed);
    EXPECT_EQ(readStockRows(sheet, guessed.value()).value().front().weighing->gross.poundsText(), "17.5 lb");
    const auto map = columnsChosen(sheet, SheetKind::stocktake, habits, {"gross=Received"});
    ASSERT_TRUE(map);
    EXPECT_EQ(readStockRows(sheet, map.value()).value().front().weighing->gross.poundsText(), "29.0 lb");
    bool unread = false; // what is said of the columns is of those that count now
    for (const std::string& remark : map.value().remarks) {
        EXPECT_FALSE(holds(remark, "Received: this column is not read"));
        unread = unread || holds(remark, "Gross: this column is not read");
    }
    EXPECT_TRUE(unread);
    EXPECT_FALSE(columnsChosen(sheet, SheetKind::stocktake, habits, {"gross=Received", "remark=Notes"}));
}

TEST(ColumnChoice, TheReceiptSaysWhichEmptyCame) {
    const Sheet sheet =
        sheetOf("Cylinder,Gross,Tare,Empty given\nA1,29.0 lb,17.0 lb,Z1\nA2,26.0 lb,17.0 lb,\n");
    const auto map = columnsChosen(sheet, SheetKind::receipt, {"lb", "lb", DateOrder::monthFirst}, {});
    const auto rows = readReceiptRows(sheet, map.value());
    ASSERT_TRUE(rows && rows.value().size() == 2 && rows.value()[0].receipt && rows.value()[1].receipt);
    EXPECT_EQ(rows.value()[0].receipt->exchange, "Z1");
    EXPECT_TRUE(rows.value()[1].receipt->exchange.empty());
}
