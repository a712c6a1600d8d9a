#pragma once

#include <QPalette>
#include <QRectF>
#include <QString>

#include <functional>

class QPainter;
class QWidget;

namespace tarebook {

/// A page that a drawing is put on.
struct DrawingPage {
    QString path;
    QString title;
    QString sentence; // above it
    QString foot;     // below it, beside the number of the page
    bool letter = false;
};

/// Writes a PDF of one page in landscape, with type as large as the widget's. The drawing asks for `wanted`
/// (in its pixels) and is made smaller where that does not go on the page; `paint` draws it into a rectangle,
/// black on white. False when the file cannot be written.
[[nodiscard]] bool writeDrawing(const DrawingPage& page, const QWidget& widget, const QSizeF& wanted,
                                bool fillsPage,
                                const std::function<void(QPainter&, const QRectF&, const QPalette&)>& paint);

} // namespace tarebook
