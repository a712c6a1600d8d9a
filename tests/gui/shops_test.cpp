// From one shop to another out of an open window: the window is replaced while its own menu asked for it.
#include "tests/gui/support/gui_shop.h"

#include <QAction>
#include <QDialogButtonBox>
#include <QFileDialog>
#include <QLineEdit>
#include <QPushButton>
#include <QTimer>

#include "ui/kit.h"
#include "ui/register_dialog.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr int kLookMs = 50;
constexpr int kPatienceMs = 10'000;

class ShopsTest : public GuiTest {
protected:
    void SetUp() override {
        QApplication::setAttribute(Qt::AA_DontUseNativeDialogs);
        GuiTest::SetUp();
    }
    /// Answers, as a person would, whatever dialog is open: names the shop, then chooses the file.
    void answerDialogs(const std::string& path, const char* name) {
        auto* timer = new QTimer(m_program.get());
        timer->callOnTimeout(m_program.get(), [this, path, name] {
            QWidget* open = QApplication::activeModalWidget();
            if (auto* files = qobject_cast<QFileDialog*>(open)) {
                files->findChild<QLineEdit*>(QStringLiteral("fileNameEdit"))->setText(qt(path));
                files->findChild<QDialogButtonBox*>()->buttons().front()->click();
            } else if (open != nullptr && open->objectName() == QLatin1String("settingsDialog")) {
                type("settingName", name);
                click("settingsAccept");
            }
        });
        timer->start(kLookMs);
    }
    [[nodiscard]] bool isOpen(const char* name) {
        return QTest::qWaitFor([this, name] { return shop().settings().name == name; }, kPatienceMs);
    }
};

} // namespace

TEST_F(ShopsTest, ANewShopTakesThePlaceOfTheOpenOne) {
    answerDialogs(file("second.tarebook"), "Second Shop");
    the<QAction>("actionNewShop").trigger();
    ASSERT_TRUE(isOpen("Second Shop"));
    EXPECT_TRUE(std::filesystem::exists(file("second.tarebook")));
    EXPECT_EQ(shop().store().fleetCount(), 0);
    EXPECT_TRUE(window().isVisible());
}

TEST_F(ShopsTest, AnotherShopOpensFromTheMenu) {
    Settings settings;
    settings.name = "Third Shop";
    ASSERT_TRUE(
        Shop::create(file("third.tarebook"), settings, {TAREBOOK_RESOURCE_DIR, &m_clock, systemIds(), "X"})
            .shop);
    answerDialogs(file("third.tarebook"), "");
    the<QAction>("actionOpenShop").trigger();
    ASSERT_TRUE(isOpen("Third Shop"));
    EXPECT_TRUE(window().isVisible());
}

TEST_F(ShopsTest, TheRegisterIsTypedFromTopToBottom) {
    RegisterDialog dialog(window().desk(), &window());
    dialog.show();
    dialog.activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&dialog));
    for (const char* name : {"serial", "specification", "capacity", "tare", "made", "tested"}) {
        ASSERT_NE(dialog.focusWidget(), nullptr);
        EXPECT_EQ(dialog.focusWidget()->objectName(), QStringLiteral("register:") + QLatin1String(name));
        QTest::keyClick(dialog.focusWidget(), Qt::Key_Tab);
    }
}
