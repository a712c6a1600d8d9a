#pragma once

#include <QString>

#include "core/papers/day_paper.h"

class QPagedPaintDevice;

namespace tarebook {

/// Draws the plan of a day on pages, each with its number and the books' head. Number of pages.
int drawDay(const DayPaper& paper, QPagedPaintDevice& device);
/// Writes it as a PDF (A4, or letter where the shop counts in pounds). False when the file cannot be written.
[[nodiscard]] bool dayPdf(const DayPaper& paper, const QString& path, bool letter);

} // namespace tarebook
