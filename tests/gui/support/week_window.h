// What the tests of a week do and look at in the window, over and over.
#pragma once

#include <QComboBox>
#include <QLabel>
#include <QTableWidget>

#include <algorithm>
#include <fstream>
#include <string>

#include "tests/gui/support/gui_shop.h"
#include "ui/finding_view.h"
#include "ui/kit.h"

namespace tarebook::tests {

/// A shop without cylinders, as it is before the week begins.
class WeekWindow : public GuiTest {
protected:
    WeekWindow() { m_withCylinders = false; }

    [[nodiscard]] std::string text(const char* label) { return utf8(the<QLabel>(label).text()); }
    [[nodiscard]] std::string cell(const char* table, int row, int column) {
        const QTableWidgetItem* item = the<QTableWidget>(table).item(row, column);
        return item == nullptr ? std::string() : utf8(item->text());
    }
    /// The row whose first cell says that; -1 when there is none.
    [[nodiscard]] int rowOf(const char* table, const std::string& first) {
        for (int row = 0; row < the<QTableWidget>(table).rowCount(); ++row) {
            if (cell(table, row, 0) == first) {
                return row;
            }
        }
        return -1;
    }
    /// Headline, remedy and working of the finding of that rule, in one text; empty when there is none.
    [[nodiscard]] std::string finding(const char* view, const std::string& rule) {
        for (const FindingCard* card : the<FindingView>(view).cards()) {
            if (card->finding().rule == rule) {
                std::string all = card->finding().headline + " | " + card->finding().remedy;
                for (const std::string& line : card->finding().working) {
                    all += " | " + line;
                }
                return all;
            }
        }
        return {};
    }
    /// Whether a headline of the view has these words.
    [[nodiscard]] bool said(const char* view, const std::string& words) {
        const auto& cards = the<FindingView>(view).cards();
        return std::any_of(cards.begin(), cards.end(), [&](const FindingCard* card) {
            return card->finding().headline.find(words) != std::string::npos;
        });
    }
    void write(const char* name, const std::string& content) {
        std::ofstream(file(name), std::ios::binary) << content;
    }
    /// What a check-in is; 0 from a system, 1 to a system.
    void checkIn(const char* serial, int what, const char* system, const char* before, const char* after,
                 const char* occurred = "") {
        emit window().desk().errand(Errand::checkIn, QString::fromUtf8(serial));
        the<QComboBox>("inWhat").setCurrentIndex(what);
        choose("inSystem", system);
        type("inBefore", before);
        type("inAfter", after);
        type("inOccurred", occurred);
        click("inRecord");
        ASSERT_EQ(text("inProblem"), "");
    }
};

} // namespace tarebook::tests
