#include "tests/gui/support/gui_shop.h"

#include <QComboBox>
#include <QLineEdit>
#include <QPushButton>

#include "tests/support/week_cylinders.h"
#include "ui/kit.h"
#include "ui/pickers.h"

namespace tarebook::tests {

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
    for (const Person& person : weekPeople()) {
        drafts.push_back(draftOf(shop(), person));
    }
    drafts.push_back(draftOf(shop(), Party{"reclaimer", "Cape Reclaim", "Foundry Way 2", ""}));
    for (const System& system : weekSystems()) {
        for (const Draft& draft : draftsOf(shop(), system)) {
            drafts.push_back(draft);
        }
    }
    ASSERT_TRUE(shop().record(drafts).ok());
    if (!m_withCylinders) {
        emit window().desk().changed();
        return;
    }
    const Recorded registered = registerCylinders(shop(), weekCylinders());
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
