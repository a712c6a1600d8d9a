#include "ui/counter_style.h"

#include "ui/theme.h"

#include <QPainter>
#include <QStyleFactory>
#include <QStyleOption>

namespace tarebook {

CounterStyle::CounterStyle() : QProxyStyle(QStyleFactory::create(QStringLiteral("Fusion"))) {}

int CounterStyle::pixelMetric(PixelMetric metric, const QStyleOption* option, const QWidget* widget) const {
    constexpr int kCellMargin = 7; // as the titles of columns have it
    return metric == PM_FocusFrameHMargin ? kCellMargin : QProxyStyle::pixelMetric(metric, option, widget);
}

void CounterStyle::drawPrimitive(PrimitiveElement element, const QStyleOption* option, QPainter* painter,
                                 const QWidget* widget) const {
    const bool box = element == PE_IndicatorCheckBox || element == PE_IndicatorItemViewItemCheck;
    if (!box && element != PE_FrameLineEdit) {
        QProxyStyle::drawPrimitive(element, option, painter, widget);
        return;
    }
    const QPalette& look = option->palette;
    const bool focused = (option->state & State_HasFocus) != 0;
    const bool enabled = (option->state & State_Enabled) != 0;
    const QColor outline =
        focused ? look.color(QPalette::Highlight)
                : theme::blend(look.color(QPalette::Base), look.color(QPalette::Text), enabled ? 0.45 : 0.2);
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    painter->setPen(QPen(outline, focused ? 1.5 : 1));
    if (!box) {
        painter->setBrush(Qt::NoBrush);
        painter->drawRoundedRect(QRectF(option->rect).adjusted(0.5, 0.5, -0.5, -0.5), 2, 2);
        painter->restore();
        return;
    }
    const QRectF square = QRectF(option->rect).adjusted(1, 1, -1, -1);
    painter->setBrush(look.color(QPalette::Base));
    painter->drawRoundedRect(square, 2, 2);
    if ((option->state & State_On) != 0) {
        const qreal side = square.width();
        painter->setPen(
            QPen(look.color(QPalette::Text), side * 0.16, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
        painter->drawPolyline(QPolygonF({square.topLeft() + QPointF(side * 0.22, side * 0.52),
                                         square.topLeft() + QPointF(side * 0.42, side * 0.74),
                                         square.topLeft() + QPointF(side * 0.8, side * 0.26)}));
    }
    painter->restore();
}

} // namespace tarebook
