#pragma once

#include <QColor>
#include <QPalette>
#include <QRectF>
#include <QString>

#include "core/rules/finding.h"

class QApplication;
class QPainter;

namespace tarebook::theme {

/// The look of the program: its own palette, light or dark, and a size of type that a counter can be read
/// from. `scale` multiplies the system's font.
void apply(QApplication& application, bool dark, double scale = 1);
[[nodiscard]] bool isDark(const QPalette& palette);

/// Black on white: what is printed has no colour, of which a copy of it would know nothing.
[[nodiscard]] QPalette paper();
[[nodiscard]] bool isPaper(const QPalette& palette);

/// Ink and wash of a severity on that palette; always used with its shape and its word.
[[nodiscard]] QColor ink(Severity severity, const QPalette& palette);
[[nodiscard]] QColor wash(Severity severity, const QPalette& palette);
/// `Danger`, `Refusal`, `Caution`, `Note`.
[[nodiscard]] QString word(Severity severity);
/// Circle for a note, triangle for a caution, octagon for a refusal, diamond for a danger; each with a sign
/// inside, so that it can be told in black and white.
void paintMark(QPainter& painter, const QRectF& box, Severity severity, const QPalette& palette);
[[nodiscard]] QPixmap mark(Severity severity, const QPalette& palette, int side, qreal pixelRatio);

/// Text of less weight, still readable (at least 4.5 to 1 on both palettes).
[[nodiscard]] QColor quiet(const QPalette& palette);
[[nodiscard]] QColor line(const QPalette& palette);
[[nodiscard]] QColor liquid(const QPalette& palette);
/// A mixture of two colours; share of the second from 0 to 1.
[[nodiscard]] QColor blend(const QColor& one, const QColor& other, double share);

/// The signs of the rail: today, fleet, jobs, returns, books.
void paintGlyph(QPainter& painter, const QRectF& box, const QString& name, const QColor& colour);

} // namespace tarebook::theme
