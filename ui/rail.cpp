#include "ui/rail.h"

#include "ui/theme.h"

#include <QEnterEvent>
#include <QPainter>
#include <QStyle>
#include <QStyleOptionFocusRect>

namespace tarebook {

RailButton::RailButton(const QString& glyph, const QString& title, QWidget* parent)
    : QAbstractButton(parent), m_glyph(glyph) {
    setText(title);
    setAccessibleName(title);
    setCheckable(true);
    setAutoExclusive(true);
    setFocusPolicy(Qt::StrongFocus);
    setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
}

void RailButton::setWaiting(qint64 count) {
    if (m_waiting == count) {
        return;
    }
    m_waiting = count;
    setAccessibleName(count == 0 ? text() : tr("%1, %2 waiting").arg(text()).arg(count));
    update();
}

QString RailButton::waitingText() const {
    constexpr qint64 kMost = 999;
    return m_waiting > kMost ? QStringLiteral("999+") : QString::number(m_waiting);
}

QSize RailButton::sizeHint() const {
    QFont bold = font();
    bold.setBold(true);
    const QFontMetrics metrics(bold);
    const int line = metrics.height();
    return {metrics.horizontalAdvance(QStringLiteral("Returns 999+")) + line * 4, line * 11 / 4};
}

void RailButton::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const QPalette look = palette();
    const QColor ground = look.color(QPalette::Window);
    const QColor accent = look.color(QPalette::Highlight);
    const double line = fontMetrics().height();
    if (isChecked() || underMouse()) {
        painter.setPen(Qt::NoPen);
        painter.setBrush(theme::blend(ground, accent, isChecked() ? 0.2 : 0.08));
        painter.drawRoundedRect(QRectF(rect()).adjusted(line * 0.35, 2, -line * 0.35, -2), 6, 6);
    }
    if (isChecked()) {
        painter.setBrush(accent);
        painter.drawRoundedRect(QRectF(line * 0.35, height() * 0.25, line * 0.22, height() * 0.5), 2, 2);
    }
    const QColor ink = look.color(QPalette::WindowText);
    const double glyph = line * 1.25;
    theme::paintGlyph(painter, QRectF(line, (height() - glyph) / 2, glyph, glyph), m_glyph, ink);
    QFont face = font();
    face.setBold(isChecked());
    painter.setFont(face);
    painter.setPen(ink);
    const double textLeft = line * 2.75;
    painter.drawText(QRectF(textLeft, 0, width() - textLeft, height()), Qt::AlignVCenter | Qt::AlignLeft,
                     text());
    if (m_waiting > 0) {
        QFont small = font();
        small.setPointSizeF(small.pointSizeF() * 0.9);
        painter.setFont(small);
        const double room = QFontMetricsF(small).horizontalAdvance(waitingText()) + line * 0.7;
        const QRectF pill(width() - room - line * 0.7, (height() - line * 1.15) / 2, room, line * 1.15);
        painter.setPen(Qt::NoPen);
        painter.setBrush(theme::blend(ground, ink, 0.16));
        painter.drawRoundedRect(pill, pill.height() / 2, pill.height() / 2);
        painter.setPen(ink);
        painter.drawText(pill, Qt::AlignCenter, waitingText());
    }
    if (hasFocus()) {
        painter.setPen(QPen(accent, 2));
        painter.setBrush(Qt::NoBrush);
        painter.drawRoundedRect(QRectF(rect()).adjusted(line * 0.35, 2, -line * 0.35, -2), 6, 6);
    }
}

void RailButton::enterEvent(QEnterEvent* event) {
    QAbstractButton::enterEvent(event);
    update();
}

void RailButton::leaveEvent(QEvent* event) {
    QAbstractButton::leaveEvent(event);
    update();
}

} // namespace tarebook
