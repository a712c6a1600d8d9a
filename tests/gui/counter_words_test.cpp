// What the counter says before and after: gas in a system that is not for it, an evacuation of a full
// cylinder, what the van carries, where nothing may go in. Figures: masses as entered; 440 lb on a vehicle,
// 49 CFR 173.6(d).
#include "tests/gui/support/gui_shop.h"

#include <QAction>
#include <QComboBox>
#include <QLabel>
#include <QPushButton>
#include <QTabWidget>

#include "ui/desk.h"
#include "ui/finding_view.h"
#include "ui/kit.h"
#include "ui/pickers.h"
#include "ui/questions.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class CounterWordsTest : public GuiTest {
protected:
    std::string headline(const char* view, const char* rule) {
        for (const FindingCard* card : the<FindingView>(view).cards()) {
            if (card->finding().rule == rule) {
                return card->finding().headline;
            }
        }
        return {};
    }
    Recorded moved(const char* serial, const char* pounds, const char* from, const char* to) {
        CheckIn facts;
        facts.serial = serial;
        facts.moved = lb(pounds);
        facts.from = from;
        facts.to = to;
        Recorded recorded = checkIn(shop(), facts);
        window().desk().notifyRecorded(recorded);
        return recorded;
    }
};

} // namespace

TEST_F(CounterWordsTest, TheWrongGasInASystemStandsInTodayAndItsButtonPlansTheRecovery) {
    ASSERT_TRUE(moved("A103", "2.3", "", "system:ST-ALDER/RTU-3").ok());
    window().openPlace(QStringLiteral("today"));
    QApplication::processEvents();
    click("act:system:ST-ALDER/RTU-3");
    EXPECT_EQ(utf8(chosenIn(the<QComboBox>("outSystem"))), "ST-ALDER/RTU-3");
}

TEST_F(CounterWordsTest, AnEvacuationOfAFullCylinderAsksWhereItWent) {
    scan("A105");
    questions::queueAnswer(std::nullopt); // thinks again
    the<QAction>("act:evacuate").trigger();
    EXPECT_NE(questions::lastTold().indexOf(QStringLiteral("still have 20.0 lb of R-410A")), -1)
        << utf8(questions::lastTold());
    EXPECT_EQ(net("A105"), "20.0 lb");
    questions::queueAnswer(QStringLiteral("pump 2"));
    the<QAction>("act:evacuate").trigger();
    QApplication::processEvents();
    EXPECT_TRUE(the<FindingCard>("finding:release.unexplained").isVisible());
    scan("A101");
    questions::queueAnswer(QStringLiteral("pump 2"));
    the<QAction>("act:evacuate").trigger();
    EXPECT_EQ(questions::lastTold().indexOf(QStringLiteral("still have")), -1) << "it was empty";
}

// A105 weighs 27.9 lb and holds 20.0 lb: 47.9 lb; A103 17.0 lb and 14.6 lb: 79.5 lb with it.
TEST_F(CounterWordsTest, TheVanIsSaidBesideTheTechnician) {
    CheckOut out;
    out.person = "MORGAN VALE";
    out.serials = {"A105"};
    out.purpose = Purpose::carry;
    window().desk().notifyRecorded(checkOut(shop(), out));
    window().openPlace(QStringLiteral("jobs"));
    choose("outPerson", "MORGAN VALE");
    EXPECT_NE(headline("outFindings", "load.relief").find("47.9 lb"), std::string::npos)
        << headline("outFindings", "load.relief");
    scan("A103");
    EXPECT_NE(headline("outFindings", "load.relief").find("79.5 lb"), std::string::npos)
        << headline("outFindings", "load.relief");
    EXPECT_NE(headline("outFindings", "load.relief").find("MORGAN VALE"), std::string::npos);
}

TEST_F(CounterWordsTest, WhereNothingMayGoInTheTileSaysSo) {
    ASSERT_TRUE(
        moved("A101", "42", "system:ST-ALDER/RTU-3", "").ok());       // more than any limit of 47.7 lb water
    ASSERT_TRUE(moved("A105", "3", "system:HARBOR/DOCK-1", "").ok()); // R-22 on R-410A
    window().openPlace(QStringLiteral("jobs"));
    the<QTabWidget>("jobsTabs").setCurrentIndex(1);
    for (const char* serial : {"A101", "A105"}) {
        type("inSerial", serial);
        QApplication::processEvents();
        EXPECT_EQ(utf8(the<QLabel>("inStop").text()), "do not fill") << serial;
    }
    type("inSerial", "A103");
    QApplication::processEvents();
    EXPECT_NE(utf8(the<QLabel>("inStop").text()), "do not fill");
    window().openPlace(QStringLiteral("fleet")); // and on the card
    for (const char* serial : {"A101", "A105"}) {
        scan(serial);
        EXPECT_EQ(utf8(the<QLabel>("cardStop").text()), "do not fill") << serial;
    }
    scan("A103");
    EXPECT_EQ(utf8(the<QLabel>("cardStop").text()), "42.0 lb");
}
