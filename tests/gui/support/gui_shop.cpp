#include "tests/gui/support/gui_shop.h"

#include <QComboBox>
#include <QLineEdit>
#include <QPushButton>

#include "ui/kit.h"
#include "ui/pickers.h"

namespace tarebook::tests {

namespace {

NewCylinder cylinder(const char* serial, const char* specification, const char* capacity, const char* tare,
                     const char* month) {
    NewCylinder made;
    made.plate.serial = serial;
    made.plate.specification = Specification::parse(specification).value();
    made.plate.waterCapacity = WaterCapacity::parse(std::string(capacity) + " lb").value();
    made.plate.tare = Mass::parse(std::string(tare) + " lb").value();
    made.plate.manufactured = MonthYear::parse(month).value();
    made.evacuated = true;
    return made;
}

void fill(NewCylinder& cylinder, const char* mass, const char* refrigerant, const char* owner) {
    cylinder.evacuated = false;
    cylinder.content = Mass::parse(std::string(mass) + " lb").value();
    cylinder.refrigerant = refrigerant;
    cylinder.contentOwner = owner;
}

} // namespace

void GuiTest::SetUp() {
    m_folder =
        std::filesystem::temp_directory_path() /
        fmt::format("gui-{}-{}", ::getpid(), testing::UnitTest::GetInstance()->current_test_info()->name());
    std::filesystem::create_directories(m_folder);
    m_program =
        std::make_unique<Program>(QStringLiteral(TAREBOOK_RESOURCE_DIR), m_clock, QStringLiteral("COUNTER"));
    Settings settings;
    settings.name = "Larkspur Mechanical";
    settings.zone = "America/Chicago";
    ASSERT_TRUE(m_program->createShop(qt(file("shop.tarebook")), settings, nullptr));
    std::vector<Draft> drafts;
    drafts.push_back(draftOf(
        shop(), Person{"MORGAN VALE", "technician", "Type II", Date::parse("2028-03-31").value(), true}));
    drafts.push_back(draftOf(
        shop(), Person{"JULES ARBOR", "technician", "Universal", Date::parse("2026-10-31").value(), true}));
    drafts.push_back(draftOf(shop(), Party{"reclaimer", "Cape Reclaim", "Foundry Way 2", ""}));
    for (const System& system :
         {System{"ST-ALDER", "RTU-3", "St. Alder Schools", "R-410A", lb("34"), "comfort cooling"},
          System{"ST-ALDER", "GYM-1", "St. Alder Schools", "R-410A", lb("18"), "comfort cooling"},
          System{"BRIGHTWATER", "STORE-2", "Brightwater Grocers", "R-410A", lb("22"), ""},
          System{"HARBOR", "DOCK-1", "Ansel Harbor Cold Storage", "R-22", lb("60"), ""}}) {
        for (const Draft& draft : draftsOf(shop(), system)) {
            drafts.push_back(draft);
        }
    }
    ASSERT_TRUE(shop().record(drafts).ok());
    if (!m_withCylinders) {
        emit window().desk().changed();
        return;
    }
    std::vector<NewCylinder> seven = {cylinder("A101", "DOT-4BA400", "47.7", "27.0", "2021-03"),
                                      cylinder("A102", "DOT-4BW400", "47.7", "28.1", "2023-06"),
                                      cylinder("A103", "DOT-4BA400", "26.2", "17.0", "2024-10"),
                                      cylinder("A104", "DOT-4BA350", "47.7", "26.0", "2022-05"),
                                      cylinder("A105", "DOT-4BA400", "47.7", "27.9", "2022-10"),
                                      cylinder("A107", "DOT-4BA400", "26.2", "16.8", "2025-02"),
                                      cylinder("D001", "DOT-39", "26.2", "6.1", "2026-05")};
    fill(seven[2], "14.6", "R-22", "Ansel Harbor Cold Storage");
    fill(seven[4], "20.0", "R-410A", "Brightwater Grocers");
    fill(seven[6], "25.0", "R-410A", "");
    seven[6].contentState = GasState::unused;
    const Recorded registered = registerCylinders(shop(), seven);
    ASSERT_TRUE(registered.ok()) << registered.error.text();
    // The window learns of it as it learns of another program.
    emit window().desk().changed();
    QApplication::processEvents();
}

void GuiTest::TearDown() {
    m_program.reset();
    std::filesystem::remove_all(m_folder);
}

void GuiTest::type(const char* name, const char* text) {
    auto& line = the<QLineEdit>(name);
    line.setFocus();
    line.selectAll();
    QTest::keyClick(&line, Qt::Key_Delete);
    QTest::keyClicks(&line, QString::fromUtf8(text));
}

void GuiTest::click(const char* name) {
    auto& button = the<QAbstractButton>(name);
    ASSERT_TRUE(button.isEnabled()) << name;
    QTest::mouseClick(&button, Qt::LeftButton);
    QApplication::processEvents();
}

void GuiTest::scan(const char* text) {
    auto& field = the<QLineEdit>("scanField");
    field.setFocus();
    QTest::keyClicks(&field, QString::fromUtf8(text));
    QTest::keyClick(&field, Qt::Key_Return);
    QApplication::processEvents();
}

void GuiTest::choose(const char* box, const char* key) {
    ASSERT_TRUE(chooseIn(the<QComboBox>(box), QString::fromUtf8(key))) << key;
    QApplication::processEvents();
}

} // namespace tarebook::tests

int main(int argc, char** argv) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    testing::InitGoogleTest(&argc, argv);
    QApplication application(argc, argv);
    return RUN_ALL_TESTS();
}
