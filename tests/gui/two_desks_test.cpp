// Another program works on the same file: the window shows what it did by itself.
#include <QLineEdit>
#include <QTableView>

#include "core/store/store.h"
#include "tests/gui/support/gui_shop.h"
#include "ui/kit.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class TwoDesksInTheWindow : public GuiTest {
protected:
    /// What the fleet says in the row of the serial.
    [[nodiscard]] std::string rowOf(const char* serial) {
        const auto* model = the<QTableView>("fleetTable").model();
        for (int row = 0; row < model->rowCount(); ++row) {
            std::string text;
            for (int column = 0; column < model->columnCount(); ++column) {
                text += utf8(model->index(row, column).data().toString()) + "|";
            }
            if (text.find(serial) != std::string::npos) {
                return text;
            }
        }
        return "no row of " + std::string(serial);
    }
};

constexpr int kPatience = 20'000; // milliseconds; the window looks every two seconds

} // namespace

TEST_F(TwoDesksInTheWindow, WhatAnotherProgramHandedOutIsShownWithoutBeingAskedFor) {
    window().openPlace(QStringLiteral("fleet"));
    window().show();
    ASSERT_EQ(rowOf("A102").find("JULES ARBOR"), std::string::npos) << rowOf("A102");
    int ids = 0;
    const Environment other{TAREBOOK_RESOURCE_DIR, &m_clock,
                            [&ids] { return fmt::format("back-door-{}", ++ids); }, "BACK DOOR"};
    const auto desk = Shop::open(shop().store().path(), other).shop;
    ASSERT_TRUE(desk);
    CheckOut plan;
    plan.person = "JULES ARBOR";
    plan.serials = {"A102"};
    plan.purpose = Purpose::carry;
    ASSERT_TRUE(checkOut(*desk, plan).ok());
    EXPECT_TRUE(
        QTest::qWaitFor([&] { return rowOf("A102").find("JULES ARBOR") != std::string::npos; }, kPatience))
        << rowOf("A102");
    // And here it is not handed out a second time.
    plan.person = "MORGAN VALE";
    const Recorded late = checkOut(shop(), plan);
    EXPECT_EQ(late.outcome, Outcome::notRecorded);
    EXPECT_NE(late.error.text().find("JULES ARBOR"), std::string::npos) << late.error.text();
}
