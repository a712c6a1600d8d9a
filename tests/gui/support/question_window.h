// The place of the books, where auditors' questions are asked.
#pragma once

#include <QComboBox>
#include <QTableWidget>

#include <string>

#include "tests/gui/support/gui_shop.h"
#include "ui/kit.h"

namespace tarebook::tests {

class QuestionWindow : public GuiTest {
protected:
    /// Picks the question by its name.
    void pick(const char* name) {
        auto& box = the<QComboBox>("bookQuestion");
        const int place = box.findData(QString::fromLatin1(name));
        ASSERT_GE(place, 0) << name;
        box.setCurrentIndex(place);
    }
    /// Of the answer's table.
    [[nodiscard]] std::string cell(int row, int column) {
        const auto* item = the<QTableWidget>("bookTable").item(row, column);
        return item == nullptr ? std::string() : utf8(item->text());
    }
};

} // namespace tarebook::tests
