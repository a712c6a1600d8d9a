#include "ui/cylinder_drawing.h"

#include "ui/theme.h"

#include <QPainter>
#include <QPainterPath>

#include <algorithm>

namespace tarebook {

CylinderDrawing::CylinderDrawing(QWidget* parent) : QWidget(parent) {
    setObjectName(QStringLiteral("cylinderDrawing"));
    setAccessibleName(tr("Liquid level"));
    setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
}

void CylinderDrawing::setLevel(double liquid, double stopLine, bool danger, const QString& caption) {
    m_liquid = std::clamp(liquid, 0.0, 1.0);
    m_stop = stopLine;
    m_danger = danger;
    setAccessibleDescription(caption);
    setToolTip(caption);
    update();
}

QSize CylinderDrawing::sizeHint() const {
    const int line = fontMetrics().height();
    return {line * 6, line * 10};
}

void CylinderDrawing::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const qreal line = fontMetrics().height();
    const QRectF whole = QRectF(rect()).adjusted(4, 2, -4, -4);
    const QRectF collar(whole.center().x() - line, whole.top(), line * 2, line * 0.9);
    const QRectF body(whole.left(), whole.top() + line * 1.1, whole.width(), whole.height() - line * 1.1);
    QPainterPath shell;
    shell.addRoundedRect(body, line, line);
    const QColor ink = palette().color(QPalette::WindowText);
    painter.setPen(QPen(ink, 1.5));
    painter.drawRoundedRect(collar, 3, 3);
    painter.fillPath(shell, palette().color(QPalette::Base));
    painter.save();
    painter.setClipPath(shell);
    const qreal top = body.bottom() - body.height() * m_liquid;
    painter.fillRect(QRectF(body.left(), top, body.width(), body.bottom() - top),
                     m_danger ? theme::ink(Severity::danger, palette()) : theme::liquid(palette()));
    painter.restore();
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(ink, 1.5));
    painter.drawPath(shell);
    if (m_stop > 0 && m_stop <= 1) {
        const qreal y = body.bottom() - body.height() * m_stop;
        painter.setPen(QPen(theme::ink(Severity::refusal, palette()), 1.5, Qt::DashLine));
        painter.drawLine(QPointF(body.left() - 3, y), QPointF(body.right() + 3, y));
    }
    painter.setPen(m_liquid > 0.5 ? palette().color(QPalette::Base) : ink);
    if (m_liquid > 0) {
        painter.drawText(QRectF(body.left(), body.bottom() - line * 1.8, body.width(), line * 1.5),
                         Qt::AlignCenter, tr("%1 %").arg(qRound(m_liquid * 100)));
    }
}

} // namespace tarebook
