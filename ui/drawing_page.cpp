#include "ui/drawing_page.h"

#include "ui/theme.h"

#include <QFontInfo>
#include <QObject>
#include <QPainter>
#include <QPdfWriter>
#include <QWidget>

#include <algorithm>

namespace tarebook {

bool writeDrawing(const DrawingPage& page, const QWidget& widget, const QSizeF& wanted, bool fillsPage,
                  const std::function<void(QPainter&, const QRectF&, const QPalette&)>& paint) {
    QPdfWriter writer(page.path);
    writer.setTitle(page.title);
    writer.setPageSize(QPageSize(page.letter ? QPageSize::Letter : QPageSize::A4));
    writer.setPageOrientation(QPageLayout::Landscape);
    writer.setPageMargins(QMarginsF(15, 15, 15, 15), QPageLayout::Millimeter);
    QPainter painter;
    if (!painter.begin(&writer)) {
        return false;
    }
    const qreal line = widget.fontMetrics().height();
    const qreal dots = static_cast<qreal>(writer.logicalDpiX()) / widget.logicalDpiX();
    const QSizeF sheet(writer.width() / dots, writer.height() / dots);
    painter.scale(dots, dots);
    QFont type = widget.font();
    type.setPixelSize(
        widget.fontInfo().pixelSize()); // points would be taken for those of the paper and scaled twice
    painter.setFont(type);
    painter.drawText(QRectF(0, 0, sheet.width(), line * 4), Qt::TextWordWrap, page.sentence);
    const QRectF below(0, sheet.height() - line, sheet.width(), line);
    painter.drawText(below, Qt::AlignLeft, page.foot);
    painter.drawText(below, Qt::AlignRight, QObject::tr("page 1 of 1"));
    const QSizeF room(sheet.width(), sheet.height() - line * 6);
    const qreal fit = std::min({1.0, room.width() / wanted.width(), room.height() / wanted.height()});
    painter.translate(0, line * 4.5);
    painter.scale(fit, fit);
    const qreal tall = fillsPage ? room.height() / fit : wanted.height();
    paint(painter, QRectF(0, 0, std::max(wanted.width(), room.width() / fit), tall), theme::paper());
    return painter.end();
}

} // namespace tarebook
