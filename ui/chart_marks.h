#pragma once

#include <QBrush>
#include <QPalette>
#include <QPen>

namespace tarebook::chart_marks {

/// How the parts of a chart are told apart: each by its pattern or the dashes of its line, and on a screen by
/// a hue besides. `number` from 0 on, as the parts come.
[[nodiscard]] QBrush brush(int number, const QPalette& colours);
[[nodiscard]] QPen pen(int number, const QPalette& colours, qreal lineHeight);

} // namespace tarebook::chart_marks
