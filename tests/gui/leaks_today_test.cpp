// A system over its leak limit stands in Today, and its button shows what was added to it. 10 % for comfort
// cooling (40 CFR 82.157(c)(2), 84.106 from 15 lb); 4 lb of 18 lb are 22.22 % in 365 days (82.152).
#include "tests/gui/support/gui_shop.h"

#include <QApplication>
#include <QComboBox>
#include <QPushButton>

#include "ui/kit.h"

using namespace tarebook;
using namespace tarebook::tests;

class LeaksInToday : public GuiTest {};

TEST_F(LeaksInToday, OneButtonLeadsToWhatWasAdded) {
    CheckIn charge;
    charge.serial = "D001";
    charge.moved = lb("4");
    charge.to = "system:ST-ALDER/GYM-1";
    const Recorded recorded = checkIn(shop(), charge);
    ASSERT_TRUE(recorded.ok()) << recorded.error.text();
    window().openPlace(QStringLiteral("today"));
    EXPECT_EQ(the<QPushButton>("act:system:ST-ALDER/GYM-1").text(), QStringLiteral("What was added"));
    click("act:system:ST-ALDER/GYM-1");
    EXPECT_EQ(the<QComboBox>("bookQuestion").currentData().toString(), QStringLiteral("additions"));
    EXPECT_TRUE(the<QComboBox>("bookSystem").currentText().contains(QStringLiteral("ST-ALDER/GYM-1")))
        << utf8(the<QComboBox>("bookSystem").currentText());
    Settings settings = shop().settings();
    ASSERT_TRUE(settings.set("leak_method", "annualizing"));
    ASSERT_TRUE(shop().change(settings).ok());
    emit window().desk().changed();
    window().openPlace(QStringLiteral("today"));
    QApplication::processEvents();
    QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete); // of the rows before
    EXPECT_THROW((void)the<QPushButton>("act:system:ST-ALDER/GYM-1"), std::runtime_error)
        << "no annualized rate without the addition before";
}
