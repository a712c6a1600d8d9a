#pragma once

#include <filesystem>
#include <memory>
#include <string>

#include <QApplication>
#include <QTest>
#include <fmt/format.h>
#include <gtest/gtest.h>

#include "core/shop/card.h"
#include "core/shop/counter.h"
#include "core/shop/register.h"
#include "ui/main_window.h"
#include "ui/page.h"
#include "ui/program.h"

namespace tarebook::tests {

/// The program in a real event loop, on the shop of the week at the counter: seven cylinders, four systems,
/// two technicians; Monday 2026-09-14, 08:00 in America/Chicago.
class GuiTest : public testing::Test {
protected:
    void SetUp() override;
    void TearDown() override;

    [[nodiscard]] MainWindow& window() { return *m_program->window(); }
    [[nodiscard]] Shop& shop() { return *m_program->shop(); }
    /// A widget of that object name in the window, or in any window that is open; the test fails without it.
    template <typename Widget> Widget& the(const char* name) {
        for (QWidget* top : QApplication::topLevelWidgets()) {
            if (auto* found = top->objectName() == QLatin1String(name)
                                  ? qobject_cast<Widget*>(top)
                                  : top->findChild<Widget*>(QLatin1String(name))) {
                return *found;
            }
        }
        throw std::runtime_error(std::string("no widget ") + name);
    }
    /// Types into a field as a person would: the old text goes.
    void type(const char* name, const char* text);
    void click(const char* name);
    /// Scans into the field above the places; Enter ends it.
    void scan(const char* text);
    void choose(const char* box, const char* key);
    void setTime(const char* utc) { m_clock.set(Instant::parse(utc).value()); }
    [[nodiscard]] std::string file(const char* name) const { return (m_folder / name).string(); }
    [[nodiscard]] static Mass lb(const char* number) {
        return Mass::parse(std::string(number) + " lb").value();
    }
    [[nodiscard]] std::string net(const char* serial) {
        return card(shop(), serial).value().state.content.total().poundsText();
    }

    /// Whether the seven cylinders are on file from the beginning.
    bool m_withCylinders = true;
    SetClock m_clock{Instant::parse("2026-09-14T13:00:00Z").value()};
    std::filesystem::path m_folder;
    std::unique_ptr<Program> m_program;
};

} // namespace tarebook::tests
