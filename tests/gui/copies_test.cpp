// Copies that the window keeps by itself, and the way back to one: seen before it is done, done, and undone.
#include "tests/gui/support/gui_shop.h"

#include <QAction>
#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QTableWidget>
#include <QTimer>
#include <fstream>

#include "core/store/kept_copies.h"
#include "ui/kit.h"
#include "ui/questions.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr int kLookMs = 50;
constexpr int kPatienceMs = 10'000;

class WindowCopiesTest : public GuiTest {
protected:
    [[nodiscard]] std::string path() { return shop().store().path(); }
    /// A minute later it looks whether a copy is due; the number of copies then.
    [[nodiscard]] std::size_t looked() {
        m_clock.set(m_clock.now().plusSeconds(60));
        bool done = false;
        const auto link = QObject::connect(m_program->copyKeeper(), &CopyKeeper::finished,
                                           [&](const QString&, const QString& problem) {
                                               EXPECT_EQ(utf8(problem), "");
                                               done = true;
                                           });
        m_program->copyKeeper()->look();
        EXPECT_TRUE(QTest::qWaitFor([&] { return done; }, kPatienceMs));
        QObject::disconnect(link);
        return keptCopies(path()).size();
    }
    /// Does it in the dialog once that is open.
    template <typename Work> void inDialog(Work work) {
        auto* timer = new QTimer(m_program.get());
        timer->callOnTimeout(m_program.get(), [timer, work] {
            const QWidget* open = QApplication::activeModalWidget();
            if (open != nullptr && open->objectName() == QLatin1String("copiesDialog")) {
                timer->stop();
                work();
            }
        });
        timer->start(kLookMs);
    }
};

} // namespace

TEST_F(WindowCopiesTest, ACopyIsKeptOnOpeningAndShowsWhatGoingBackLoses) {
    // The first may have looked while the cylinders were still being entered.
    const std::size_t copies = std::max(looked(), looked());
    ASSERT_GE(copies, 1U);
    EXPECT_EQ(looked(), copies) << "nothing has changed";
    ASSERT_TRUE(weigh(shop(), "A105", lb("47.9")).ok());
    const Sequence head = shop().store().headSeq();
    const std::string file = path();
    inDialog([this, copies] {
        EXPECT_EQ(the<QTableWidget>("copiesTable").rowCount(), static_cast<int>(copies));
        EXPECT_EQ(the<QTableWidget>("copiesTable").item(0, 2)->text(),
                  QStringLiteral("the last entry would be lost"));
        auto& lost = the<QListWidget>("copiesLost");
        ASSERT_EQ(lost.count(), 1);
        EXPECT_TRUE(lost.item(0)->text().contains(QStringLiteral("Weighed A105")))
            << utf8(lost.item(0)->text());
        questions::queueAnswer(QStringLiteral("yes"));
        click("copiesRestore");
    });
    the<QAction>("actionCopies").trigger();
    ASSERT_TRUE(QTest::qWaitFor([&] { return m_program->shop() && shop().store().headSeq() == head - 1; },
                                kPatienceMs));
    EXPECT_TRUE(window().isVisible());
    EXPECT_EQ(path(), file);
    EXPECT_GE(keptCopies(file).size(), copies + 1) << "what was restored over is among them";
}

TEST_F(WindowCopiesTest, ADamagedShopOffersTheWayBack) {
    ASSERT_GE(std::max(looked(), looked()), 1U);
    const std::string file = path();
    const Sequence head = shop().store().headSeq();
    const std::string spoilt = this->file("spoilt.tarebook");
    std::filesystem::copy_file(file, spoilt);
    std::filesystem::copy(copyFolderOf(file), copyFolderOf(spoilt));
    std::fstream(spoilt, std::ios::in | std::ios::out | std::ios::binary).seekp(2'000)
        << std::string(30'000, 'x');
    questions::queueAnswer(QStringLiteral("yes")); // choose a copy
    inDialog([this] {
        questions::queueAnswer(QStringLiteral("yes")); // go back to it
        click("copiesRestore");
    });
    EXPECT_TRUE(m_program->openShop(qt(spoilt), &window()));
    ASSERT_NE(m_program->shop(), nullptr);
    EXPECT_EQ(path(), spoilt);
    EXPECT_EQ(shop().store().headSeq(), head);
    EXPECT_FALSE(shop().store().readOnly());
}

// A file whose end is lost, as a full stick leaves it: what is still there is counted, not guessed by the
// highest number.
TEST_F(WindowCopiesTest, OfAFileThatWasCutShortItIsToldWhatCanStillBeRead) {
    const Sequence head = shop().store().headSeq();
    const std::string cut = this->file("cut.tarebook");
    std::filesystem::copy_file(path(), cut);
    std::filesystem::resize_file(cut, std::filesystem::file_size(cut) - 4 * 4'096);
    questions::queueAnswer(std::nullopt);
    (void)m_program->openShop(qt(cut), &window());
    const QString told = questions::lastTold();
    EXPECT_TRUE(told.contains(QStringLiteral("cut.tarebook"))) << utf8(told);
    EXPECT_TRUE(told.contains(QStringLiteral("of %1 entries can be read").arg(head))) << utf8(told);
}
