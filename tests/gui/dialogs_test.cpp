// A shop of one's own: new, imported, registered, set up; by keyboard and mouse.
#include "tests/gui/support/gui_shop.h"

#include <QAbstractItemModelTester>
#include <QAction>
#include <QCheckBox>
#include <QComboBox>
#include <QDialog>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTabWidget>
#include <QTableView>
#include <QTableWidget>
#include <QTimer>

#include <fstream>

#include "ui/card_panel.h"
#include "ui/finding_view.h"
#include "ui/fleet_model.h"
#include "ui/import_dialog.h"
#include "ui/kit.h"
#include "ui/names_dialog.h"
#include "ui/questions.h"
#include "ui/refrigerant_window.h"
#include "ui/register_dialog.h"
#include "ui/settings_dialog.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class DialogsTest : public GuiTest {};

} // namespace

TEST_F(DialogsTest, ImportsASheetOnlyWhenAgreed) {
    std::ofstream(file("mine.csv")) << "serial;specification;water_capacity;tare;manufactured\n"
                                       "B201;DOT-4BA400;47,7 lb;27 lb;03/24\n"
                                       "B202;DOT-4BX400;47,7 lb;27 lb;Mar 2024\n"
                                       "B203;DOT-4BA400;21,6 kg;279 lb;2024-03\n";
    const auto before = shop().store().headSeq();
    ImportDialog dialog(window().desk(), &window());
    dialog.show();
    dialog.readFile(qt(file("mine.csv")));
    QApplication::processEvents();
    auto& rows = the<QTableWidget>("importRows");
    ASSERT_EQ(rows.rowCount(), 3);
    EXPECT_NE(rows.item(0, 3)->text().indexOf(QStringLiteral("DOT-4BA")), -1)
        << utf8(rows.item(0, 3)->text());
    EXPECT_FALSE(the<QPushButton>("importWrite").isEnabled());
    EXPECT_EQ(shop().store().headSeq(), before);
    rows.item(0, 0)->setCheckState(Qt::Unchecked); // leave the misspelt row out
    rows.item(1, 0)->setCheckState(Qt::Checked);   // the heavy one is so
    click("importWrite");
    EXPECT_EQ(shop().store().headSeq(), before + 2);
    EXPECT_TRUE(card(shop(), "B201").ok());
    EXPECT_FALSE(card(shop(), "B202").ok());
}

TEST_F(DialogsTest, WritesNothingFromASheetThatIsGone) {
    std::ofstream(file("mine.csv")) << "serial;specification;water_capacity;tare;manufactured\n"
                                       "B201;DOT-4BA400;47,7 lb;27 lb;03/24\n";
    const auto before = shop().store().headSeq();
    ImportDialog dialog(window().desk(), &window());
    dialog.show();
    dialog.readFile(qt(file("mine.csv")));
    ASSERT_TRUE(the<QPushButton>("importWrite").isEnabled());
    std::filesystem::remove(file("mine.csv"));
    the<QComboBox>("importKind").setCurrentIndex(1); // reads it again
    EXPECT_FALSE(the<QPushButton>("importWrite").isEnabled());
    EXPECT_NE(the<QLabel>("importObstacle").text().indexOf(QStringLiteral("cannot be read")), -1);
    the<QPushButton>("importWrite").click();
    EXPECT_EQ(shop().store().headSeq(), before);
}

TEST_F(DialogsTest, ClosingWhileItWritesWritesNothing) {
    std::ofstream sheet(file("many.csv"));
    sheet << "serial;specification;water_capacity;tare;manufactured\n";
    for (int number = 0; number < 400; ++number) {
        sheet << "B" << 1000 + number << ";DOT-4BA400;47,7 lb;27 lb;03/24\n";
    }
    sheet.close();
    const auto before = shop().store().headSeq();
    ImportDialog dialog(window().desk(), &window());
    dialog.show();
    dialog.readFile(qt(file("many.csv")));
    ASSERT_TRUE(the<QPushButton>("importWrite").isEnabled());
    QTimer::singleShot(0, &dialog, [&] { QTest::keyClick(&dialog, Qt::Key_Escape); });
    the<QPushButton>("importWrite").click();
    EXPECT_TRUE(dialog.isVisible());
    EXPECT_EQ(shop().store().headSeq(), before);
    EXPECT_TRUE(the<QPushButton>("importWrite").isEnabled());
}

TEST_F(DialogsTest, RegistersByStampedMarks) {
    RegisterDialog dialog(window().desk(), &window());
    dialog.show();
    EXPECT_FALSE(the<QPushButton>("registerRecord").isEnabled());
    type("register:serial", "C300");
    type("register:specification", "dot 4ba 400");
    EXPECT_EQ(the<QLabel>("registerTold:specification").text(), QStringLiteral("DOT-4BA400"));
    type("register:capacity", "0 lb");
    EXPECT_TRUE(the<QLabel>("registerTold:capacity").isVisible());
    type("register:capacity", "47.7 lb");
    type("register:tare", "27");
    EXPECT_EQ(the<QLabel>("registerTold:tare").text(), QStringLiteral("27.0 lb"));
    type("register:made", "3/24");
    type("register:refrigerant", "r410a");
    click("registerRecord");
    const auto made = card(shop(), "C300");
    ASSERT_TRUE(made);
    EXPECT_EQ(made.value().state.plate.refrigerant, "R-410A");
    EXPECT_EQ(made.value().due, "2029-03");
    EXPECT_EQ(the<CardPanel>("card").serial(), QStringLiteral("C300"));
}

// Ten times what is usual for 47.7 lb of water (common practice): shown while one types, and asked.
TEST_F(DialogsTest, AnUnusualTareIsRegisteredOnlyWithAYes) {
    RegisterDialog dialog(window().desk(), &window());
    dialog.show();
    type("register:serial", "C302");
    type("register:specification", "DOT-4BA400");
    type("register:capacity", "47.7 lb");
    type("register:tare", "279 lb");
    type("register:made", "2024-03");
    QApplication::processEvents();
    EXPECT_TRUE(the<FindingCard>("finding:marks.tare-unusual").isVisible());
    questions::queueAnswer({});
    click("registerRecord");
    EXPECT_TRUE(questions::lastTold().contains(QStringLiteral("27.9 lb looks right")));
    EXPECT_TRUE(dialog.isVisible());
    EXPECT_FALSE(card(shop(), "C302"));
    questions::queueAnswer(QString());
    click("registerRecord");
    EXPECT_TRUE(card(shop(), "C302"));
}

// 47.0 lb on the scale less 27.0 lb stamped are 20.0 lb.
TEST_F(DialogsTest, RegistersACylinderThatComesWithSomethingInIt) {
    RegisterDialog dialog(window().desk(), &window());
    dialog.show();
    type("register:serial", "C301");
    type("register:specification", "DOT-4BA400");
    type("register:capacity", "47.7 lb");
    type("register:tare", "27 lb");
    type("register:made", "2024-03");
    the<QTabWidget>("registerPages").setCurrentIndex(1);
    const auto told = [this](const char* name) {
        return utf8(the<QLabel>((std::string("registerTold:") + name).c_str()).text());
    };
    const auto may = [this] { return the<QPushButton>("registerRecord").isEnabled(); };
    EXPECT_TRUE(may()) << "an empty one";
    type("registerGross", "27 lb");
    EXPECT_NE(told("holds").find("not above the tare"), std::string::npos) << told("holds");
    EXPECT_NE(told("gas").find("what is inside is missing"), std::string::npos) << told("gas");
    EXPECT_FALSE(may());
    EXPECT_FALSE(the<QLabel>("registerInside").text().isEmpty()) << "said on the other page, too";
    type("registerGross", "47 lb");
    EXPECT_EQ(told("holds"), "20.0 lb inside");
    type("register:holds", "21 lb");
    EXPECT_FALSE(may()) << "which of both";
    type("register:holds", "");
    type("register:gas", "r22");
    EXPECT_EQ(told("gas"), "R-22");
    EXPECT_TRUE(may());
    type("register:filled", "2026-09-15");
    EXPECT_NE(told("filled").find("yet to come"), std::string::npos) << told("filled");
    EXPECT_FALSE(may());
    type("register:filled", "2026-08-01");
    type("register:gasOwner", "Ansel Harbor");
    the<QCheckBox>("registerEvacuated").setChecked(true);
    EXPECT_FALSE(may()) << "no evacuated empty";
    the<QCheckBox>("registerEvacuated").setChecked(false);
    EXPECT_EQ(the<QLabel>("registerInside").text(), QStringLiteral("It holds 20.0 lb of R-22."));
    click("registerRecord");
    EXPECT_EQ(net("C301"), "20.0 lb");
    const CylinderState state = card(shop(), "C301").value().state;
    const auto& parts = state.content.parts();
    ASSERT_EQ(parts.size(), 1U);
    EXPECT_EQ(parts.begin()->first.refrigerant, "R-22");
    EXPECT_EQ(parts.begin()->first.owner, "Ansel Harbor");
    EXPECT_EQ(parts.begin()->first.state, GasState::recovered);
    EXPECT_FALSE(state.evacuated);
    EXPECT_EQ(state.plate.refrigerant, "");
}

TEST_F(DialogsTest, KeepsSettings) {
    SettingsDialog dialog(shop().settings(), QStringLiteral("Settings"), QStringLiteral("Keep"), &window());
    dialog.show();
    the<QComboBox>("settingMass").setCurrentIndex(1);
    type("settingName", "Second Shop");
    type("settingOil", "a little");
    const auto wrong = dialog.settings();
    ASSERT_FALSE(wrong);
    EXPECT_NE(wrong.error().text().find("oil_allowance"), std::string::npos);
    type("settingOil", "3 %");
    type("settingHotVan", "80 % at 130 F");
    const auto changed = dialog.settings();
    ASSERT_TRUE(changed) << changed.error().text();
    ASSERT_TRUE(shop().change(changed.value()).ok());
    EXPECT_EQ(shop().settings().name, "Second Shop");
    EXPECT_EQ(shop().display().massUnit(), "kg");
    EXPECT_NEAR(shop().settings().own.oilAllowance.value_or(0), 0.03, 1e-12);
    ASSERT_TRUE(shop().settings().own.hotVan);
    EXPECT_NEAR(shop().settings().own.hotVan->at.fahrenheit(), 130, 0.01);
    EXPECT_EQ(shop().settings().weighingTolerance, Settings().weighingTolerance);
}

TEST_F(DialogsTest, FindsAsOneTypesAndShowsTheCard) {
    window().openPlace(QStringLiteral("fleet"));
    auto& table = the<QTableView>("fleetTable");
    const QAbstractItemModelTester tester(table.model(),
                                          QAbstractItemModelTester::FailureReportingMode::Fatal);
    EXPECT_EQ(table.model()->rowCount(), 7);
    type("fleetFilter", "r-22");
    EXPECT_EQ(table.model()->rowCount(), 1);
    QTest::keyClick(&the<QLineEdit>("fleetFilter"), Qt::Key_Return);
    QApplication::processEvents();
    EXPECT_EQ(the<CardPanel>("card").serial(), QStringLiteral("A103"));
    EXPECT_EQ(the<QLabel>("cardNet").text(), QStringLiteral("14.6 lb"));
    type("fleetFilter", "due:2026-03");
    EXPECT_EQ(table.model()->rowCount(), 1);
    scan("A105");
    EXPECT_EQ(the<CardPanel>("card").serial(), QStringLiteral("A105"));
    EXPECT_EQ(table.model()->rowCount(), 7);
}

TEST_F(DialogsTest, CondemnsWhatFailedItsTest) {
    scan("A101");
    QTimer::singleShot(0, [this] {
        type("fact:month", "2026-09");
        the<QComboBox>("fact:result").setCurrentIndex(1);
        type("fact:note", "bulge beside the seam");
        click("factsEnter");
    });
    the<QAction>("act:test").trigger();
    EXPECT_EQ(card(shop(), "A101").value().state.condition, Condition::condemned);
}

TEST_F(DialogsTest, RestatesATareOnlyForAReason) {
    scan("A102");
    QTimer::singleShot(0, [this] {
        type("fact:tare", "28.3 lb");
        EXPECT_FALSE(the<QPushButton>("factsEnter").isEnabled()) << "no reason yet";
        type("fact:reason", "new valve");
        click("factsEnter");
    });
    the<QAction>("act:tare").trigger();
    EXPECT_EQ(card(shop(), "A102").value().state.plate.tare.poundsText(), "28.3 lb");
}

TEST_F(DialogsTest, ChangesNamesInPlaceAndEntersSeveralAtOnce) {
    NamesDialog dialog(window().desk(), &window());
    dialog.show();
    auto& list = the<QTableWidget>("namesPeople");
    const auto before = people(shop());
    ASSERT_EQ(list.rowCount(), static_cast<int>(before.size()) + 1);
    EXPECT_FALSE(list.item(0, 0)->flags() & Qt::ItemIsEditable) << "a name stays as it was entered";
    list.item(0, 4)->setCheckState(Qt::Unchecked);
    const int last = list.rowCount() - 1;
    list.item(last, 0)->setText(qt(before.front().name));
    questions::queueAnswer(std::nullopt);
    click("namesEnter");
    EXPECT_TRUE(questions::lastTold().contains(QStringLiteral("already"))) << utf8(questions::lastTold());
    list.item(last, 0)->setText(QStringLiteral("ROBIN QUILL"));
    list.item(last, 3)->setText(QStringLiteral("31/31/2027"));
    questions::queueAnswer(std::nullopt);
    click("namesEnter");
    EXPECT_EQ(people(shop()).size(), before.size()) << "nothing is half entered";
    list.item(last, 3)->setText(QStringLiteral("3/31/2029"));
    click("namesEnter");
    const auto after = people(shop());
    ASSERT_EQ(after.size(), before.size() + 1);
    for (const Person& person : after) {
        if (person.name == before.front().name) {
            EXPECT_FALSE(person.active);
            EXPECT_EQ(person.certificate, before.front().certificate) << "what was not touched stays";
            EXPECT_EQ(person.certificateExpires, before.front().certificateExpires);
        }
        if (person.name == "ROBIN QUILL") {
            EXPECT_EQ(person.certificateExpires->text(), "2029-03-31");
        }
    }
}

// A site is the matter of several lines: each says only what was changed in it.
TEST_F(DialogsTest, LinesOfOneSiteKeepEachOthersCustomerAndAddress) {
    NamesDialog dialog(window().desk(), &window());
    dialog.show();
    auto& list = the<QTableWidget>("namesSystems");
    const auto rowOf = [&](const QString& key) {
        return list.findItems(key, Qt::MatchExactly).front()->row();
    };
    list.item(rowOf(QStringLiteral("ST-ALDER/RTU-3")), 1)->setText(QStringLiteral("Alder District"));
    list.item(rowOf(QStringLiteral("ST-ALDER/GYM-1")), 4)->setText(QStringLiteral("industrial process"));
    list.item(rowOf(QStringLiteral("ST-ALDER/GYM-1")), 6)->setText(QStringLiteral("School Lane 12"));
    questions::queueAnswer(std::nullopt); // it is asked: not so
    click("namesEnter");
    EXPECT_TRUE(questions::lastTold().contains(QStringLiteral("was of St. Alder Schools until now")))
        << utf8(questions::lastTold());
    EXPECT_EQ(systemNamed(shop(), "ST-ALDER/RTU-3")->customer, "St. Alder Schools");
    questions::queueAnswer(QStringLiteral("yes"));
    click("namesEnter");
    for (const char* key : {"ST-ALDER/RTU-3", "ST-ALDER/GYM-1"}) {
        EXPECT_EQ(systemNamed(shop(), key)->customer, "Alder District");
        EXPECT_EQ(systemNamed(shop(), key)->address, "School Lane 12");
    }
    EXPECT_EQ(systemNamed(shop(), "ST-ALDER/GYM-1")->equipment, "industrial process");
    EXPECT_EQ(systemNamed(shop(), "ST-ALDER/GYM-1")->nominalCharge, lb("18"));
}

TEST_F(DialogsTest, ShowsOnlyTheCylindersAskedFor) {
    window().openPlace(QStringLiteral("fleet"));
    auto& table = the<QTableView>("fleetTable");
    auto& show = the<QComboBox>("fleetShow");
    show.setCurrentIndex(3);                 // with a finding
    EXPECT_EQ(table.model()->rowCount(), 1); // A101, by the day: its retest has passed
    window().desk().notifyRecorded(weigh(shop(), "A105", lb("46.4"))); // 1.5 lb less than the books say
    EXPECT_EQ(table.model()->rowCount(), 2);
    show.setCurrentIndex(5); // retest passed
    ASSERT_EQ(table.model()->rowCount(), 1);
    EXPECT_EQ(table.model()->index(0, 0).data().toString(), QStringLiteral("A101"));
    show.setCurrentIndex(0);
    type("fleetFilter", "retest passed");
    ASSERT_EQ(table.model()->rowCount(), 1);
    EXPECT_EQ(table.model()->index(0, 0).data().toString(), QStringLiteral("A101"));
    QTest::keyClick(&the<QLineEdit>("fleetFilter"), Qt::Key_Escape);
    EXPECT_EQ(table.model()->rowCount(), 7);
    show.setCurrentIndex(6); // retest due soon
    EXPECT_EQ(table.model()->rowCount(), 0);
    // The next morning is another day.
    setTime("2027-02-15T15:00:00Z");
    window().openPlace(QStringLiteral("today"));
    window().openPlace(QStringLiteral("fleet"));
    ASSERT_EQ(table.model()->rowCount(), 1);
    EXPECT_EQ(table.model()->index(0, 0).data().toString(), QStringLiteral("A104")); // due 2027-05
    setTime("2026-09-14T13:00:00Z");
    window().openPlace(QStringLiteral("fleet"));
    show.setCurrentIndex(2); // out
    EXPECT_EQ(table.model()->rowCount(), 0);
    CheckOut plan;
    plan.person = people(shop()).front().name;
    plan.serials = {"A102"};
    plan.purpose = Purpose::carry;
    window().desk().notifyRecorded(checkOut(shop(), plan));
    EXPECT_EQ(table.model()->rowCount(), 1) << "the list follows what was entered";
    show.setCurrentIndex(0);
    EXPECT_EQ(table.model()->rowCount(), 7);
}

TEST_F(DialogsTest, SaysWhatItDoesNotKnow) {
    scan("NOSUCH");
    EXPECT_NE(the<QLabel>("said").text().indexOf(QStringLiteral("NOSUCH")), -1);
}

TEST_F(DialogsTest, ASecondProgramIsSeen) {
    auto other = Shop::open(file("shop.tarebook"), {TAREBOOK_RESOURCE_DIR, &m_clock, systemIds(), "OTHER"});
    ASSERT_TRUE(other.shop);
    ASSERT_TRUE(condemn(*other.shop, "A104", "dented").ok());
    window().openPlace(QStringLiteral("fleet"));
    scan("A104");
    ASSERT_TRUE(inspect(*other.shop, "A107", "damaged", "dropped").ok());
    QTest::qWait(2'500); // the window looks every two seconds
    scan("A107");
    EXPECT_NE(the<QLabel>("cardPlace").text().indexOf(QStringLiteral("held")), -1);
}
