// Every place and every dialog, one after the other, in the usual type and in type twice as large: no text is
// cut, and one button at most is the one that Enter presses.
#include "tests/gui/support/cut_text.h"
#include "tests/gui/support/person.h"
#include "ui/pictures.h"
#include "ui/theme.h"

#include <QDialog>

#include <algorithm>
#include <set>

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class EveryWindow : public WeekWindow {
protected:
    EveryWindow() { m_withCylinders = true; }
    void SetUp() override {
        m_usual = QApplication::font();
        WeekWindow::SetUp();
        for (const char* kind : {"supplier", "reclaimer"}) {
            ASSERT_TRUE(
                shop()
                    .record({draftOf(shop(), Party{kind, std::string("Cape ") + kind, "Foundry Way 2", ""})})
                    .ok());
        }
        checkIn("A103", 0, "HARBOR/DOCK-1", "17.0 lb", "29.0 lb");
        checkIn("A107", 0, "HARBOR/DOCK-1", "16.8 lb", "20.8 lb");
        // One is out, so that it can be handed over.
        CheckOut out;
        out.purpose = Purpose::carry;
        out.serials = {"A102"};
        out.person = people(shop()).front().name;
        out.job = "J-1";
        ASSERT_TRUE(checkOut(shop(), out).ok());
    }
    void TearDown() override {
        theme::apply(*qApp, false, 1);
        QApplication::setFont(m_usual);
        WeekWindow::TearDown();
    }
    /// The windows anew in that type, as the program makes them.
    void apply(double factor) {
        theme::apply(*qApp, false, factor);
        ASSERT_TRUE(m_program->openShop(QString::fromStdString(shop().store().path())));
    }
    QFont m_usual;
};

} // namespace

TEST_F(EveryWindow, CutsNoText) {
    for (const double factor : {1.0, 2.0}) {
        apply(factor);
        std::set<QString> seen;
        EXPECT_TRUE(showEveryWindow(*m_program, [&](const QWidget& window, const QString& name) {
            seen.insert(name);
            for (const std::string& text : cutTexts(window, factor == 1.0)) {
                ADD_FAILURE() << utf8(name) << " at " << factor << ": " << text;
            }
            const auto buttons = window.findChildren<QPushButton*>();
            EXPECT_LE(std::count_if(buttons.begin(), buttons.end(),
                                    [&](const QPushButton* button) {
                                        return button->isDefault() && button->window() == &window &&
                                               qobject_cast<const QDialog*>(&window) != nullptr;
                                    }),
                      1)
                << utf8(name);
            return true;
        }));
        for (const char* name : {"today", "fleet", "check-in", "settle", "terms", "act-evacuate", "receipt",
                                 "differences", "parents", "working", "shipping", "deposits", "attachments",
                                 "hand-over", "slip", "welcome", "empty-today", "rule-says", "locked"}) {
            EXPECT_EQ(seen.count(QLatin1String(name)), 1U) << name;
        }
    }
}
