// The whole window as the books stood earlier: every place, for reading only, and back.
#include "tests/gui/support/gui_shop.h"

#include <QAction>
#include <QDateEdit>
#include <QFrame>
#include <QLabel>
#include <QPushButton>
#include <QSpinBox>
#include <QTimer>

#include "ui/kit.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr int kLookMs = 50;
constexpr int kPatienceMs = 10'000;

class EarlierBooksTest : public GuiTest {
protected:
    void SetUp() override {
        GuiTest::SetUp();
        m_path = shop().store().path();
        setTime("2026-09-15T14:00:00Z");
        ASSERT_TRUE(weigh(shop(), "A105", lb("46.4")).ok()); // 1.5 lb less than the books say
        m_head = shop().store().headSeq();
        setTime("2026-09-16T14:00:00Z");
        ASSERT_TRUE(weigh(shop(), "A105", lb("46.4")).ok()); // the books follow the scale: it agrees
        setTime("2026-09-17T14:00:00Z");
    }
    template <typename Work> void inDialog(Work work) {
        auto* timer = new QTimer(m_program.get());
        timer->callOnTimeout(m_program.get(), [timer, work] {
            const QWidget* open = QApplication::activeModalWidget();
            if (open != nullptr && open->objectName() == QLatin1String("earlierDialog")) {
                timer->stop();
                work();
            }
        });
        timer->start(kLookMs);
    }
    [[nodiscard]] bool shown() {
        return QTest::qWaitFor([&] { return shop().store().path() != m_path; }, kPatienceMs);
    }
    [[nodiscard]] bool back() {
        return QTest::qWaitFor([&] { return shop().store().path() == m_path; }, kPatienceMs);
    }
    [[nodiscard]] bool hasFinding(const std::string& rule) {
        const Card its = card(shop(), "A105").value();
        return std::any_of(its.findings.begin(), its.findings.end(),
                           [&](const Finding& finding) { return finding.rule == rule; });
    }

    std::string m_path;
    Sequence m_head = 0;
};

} // namespace

TEST_F(EarlierBooksTest, ByDayForReadingOnlyAndBack) {
    EXPECT_FALSE(hasFinding("weight.differs"));
    inDialog([this] {
        EXPECT_FALSE(the<QSpinBox>("earlierEntry").isEnabled());
        the<QDateEdit>("earlierDay").setDate(QDate(2020, 1, 1));
        EXPECT_FALSE(the<QPushButton>("earlierShow").isEnabled());
        EXPECT_TRUE(the<QLabel>("earlierWords").text().contains(QStringLiteral("later day")));
        the<QDateEdit>("earlierDay").setDate(QDate(2026, 9, 15));
        EXPECT_TRUE(the<QLabel>("earlierWords").text().contains(QStringLiteral("Weighed A105")));
        click("earlierShow");
    });
    the<QAction>("actionEarlier").trigger();
    ASSERT_TRUE(shown());
    EXPECT_TRUE(the<QFrame>("earlierBanner").isVisible());
    EXPECT_TRUE(the<QLabel>("earlierBannerWords").text().contains(QStringLiteral("2026-09-15 09:00")))
        << utf8(the<QLabel>("earlierBannerWords").text());
    EXPECT_EQ(shop().store().headSeq(), m_head);
    EXPECT_EQ(shop().today().text(), "2026-09-15");
    EXPECT_TRUE(hasFinding("weight.differs"));
    EXPECT_FALSE(weigh(shop(), "A105", lb("40")).ok()) << "for reading only";
    EXPECT_FALSE(the<QAction>("actionCopies").isEnabled());
    for (const QString& place : window().placeNames()) {
        window().openPlace(place);
        QApplication::processEvents();
    }
    const std::string made = shop().store().path();
    click("earlierBack");
    ASSERT_TRUE(back());
    EXPECT_FALSE(the<QFrame>("earlierBanner").isVisible());
    EXPECT_FALSE(hasFinding("weight.differs"));
    EXPECT_EQ(shop().store().headSeq(), m_head + 1);
    EXPECT_FALSE(std::filesystem::exists(made));
    EXPECT_TRUE(weigh(shop(), "A105", lb("46.4")).ok());
}

TEST_F(EarlierBooksTest, ByEntryAndByKeyboard) {
    inDialog([this] {
        auto* dialog = QApplication::activeModalWidget();
        QTest::keyClick(dialog, Qt::Key_E, Qt::AltModifier);
        EXPECT_TRUE(QTest::qWaitFor([&] { return the<QSpinBox>("earlierEntry").isEnabled(); }, kPatienceMs));
        the<QSpinBox>("earlierEntry").setFocus();
        the<QSpinBox>("earlierEntry").selectAll();
        QTest::keyClicks(&the<QSpinBox>("earlierEntry"), QString::number(m_head));
        QTest::keyClick(dialog, Qt::Key_S, Qt::AltModifier);
    });
    the<QAction>("actionEarlier").trigger();
    ASSERT_TRUE(shown());
    EXPECT_EQ(shop().store().headSeq(), m_head);
    window().activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&window()));
    QTest::keyClick(&window(), Qt::Key_K, Qt::AltModifier);
    ASSERT_TRUE(back());
}
