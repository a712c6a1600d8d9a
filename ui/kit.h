#pragma once

#include <QString>

#include <string>

#include "core/shop/shop.h"

class QFrame;
class QLabel;
class QPushButton;
class QTableWidget;
class QTableWidgetItem;
class QWidget;

namespace tarebook {

/// Text crosses between the core (UTF-8) and the window here.
[[nodiscard]] inline QString qt(const std::string& text) {
    return QString::fromStdString(text);
}
[[nodiscard]] inline std::string utf8(const QString& text) {
    return text.toStdString();
}

/// The few pieces that panels are put together from, so that all look alike.
namespace kit {

/// Name of a section, a step larger than the text.
[[nodiscard]] QLabel* heading(const QString& text, QWidget* parent = nullptr);
/// Explains, in a quieter colour; wraps.
[[nodiscard]] QLabel* hint(const QString& text, QWidget* parent = nullptr);
/// A number that matters, large, with a caption below. Returns the frame; the number's label is `name`.
[[nodiscard]] QFrame* figure(const QString& name, const QString& caption, QLabel** number,
                             QWidget* parent = nullptr);
/// The one thing to do next on a panel.
void makePrimary(QPushButton* button);
/// Rows of generous height, no grid, whole rows selected, cells not edited; columns by their titles.
[[nodiscard]] QTableWidget* table(const QString& name, const QStringList& columns, QWidget* parent = nullptr);
/// A cell that is only read; numbers stand to the right.
QTableWidgetItem* cell(QTableWidget* table, int row, int column, const QString& text, bool number = false);
/// As wide as their contents; the column `wide` takes what is left.
void fitColumns(QTableWidget* table, int wide);
/// What came of recording, for the person: `failed` and the reason, or that it is not known yet whether the
/// entry stands. Empty when it was recorded.
[[nodiscard]] QString told(const Recorded& recorded, const QString& failed);
/// Gives labels of fields the pixels that their underlined letter costs, so that no last letter is cut.
void roomyLabels(QWidget* parent);
/// A height of so many rows and the header.
void showRows(QTableWidget* table, int rows);

} // namespace kit
} // namespace tarebook
