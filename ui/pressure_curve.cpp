#include "ui/pressure_curve.h"

#include "ui/kit.h"
#include "ui/theme.h"

#include <QPainter>
#include <QPainterPath>

#include <algorithm>

namespace tarebook {

PressureCurve::PressureCurve(QWidget* parent) : QWidget(parent) {
    setObjectName(QStringLiteral("pressureCurve"));
    setAccessibleName(tr("Pressure over temperature"));
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void PressureCurve::setCurve(const QVector<QPointF>& points, double limit, const Settings& settings) {
    m_points = points;
    m_limit = limit;
    m_settings = settings;
    update();
}

void PressureCurve::setMarker(double celsius) {
    m_marker = celsius;
    update();
}

QSize PressureCurve::sizeHint() const {
    const int line = fontMetrics().height();
    return {line * 14, line * 10};
}

double PressureCurve::pressureAt(double celsius) const {
    for (int place = 1; place < m_points.size(); ++place) {
        const QPointF& left = m_points[place - 1];
        const QPointF& right = m_points[place];
        if (celsius >= left.x() && celsius <= right.x()) {
            return left.y() + (right.y() - left.y()) * (celsius - left.x()) / (right.x() - left.x());
        }
    }
    return -1;
}

void PressureCurve::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const int line = fontMetrics().height();
    if (m_points.size() < 2) {
        painter.setPen(theme::quiet(palette()));
        painter.drawText(rect(), Qt::AlignCenter | Qt::TextWordWrap,
                         tr("No curve: contents empty or not known"));
        return;
    }
    const Display display(m_settings);
    const QRectF plot(line * 0.5, line * 0.5, width() - line, height() - line * 2.0);
    const double highest = std::max(m_points.last().y(), m_limit) * 1.08;
    const double coldest = m_points.first().x();
    const double hottest = m_points.last().x();
    const auto at = [&](double celsius, double kilopascal) {
        return QPointF(plot.left() + plot.width() * (celsius - coldest) / (hottest - coldest),
                       plot.bottom() - plot.height() * kilopascal / highest);
    };
    painter.setPen(theme::line(palette()));
    painter.drawRect(plot);
    if (m_limit > 0) {
        painter.setPen(QPen(theme::ink(Severity::refusal, palette()), 1.5, Qt::DashLine));
        const qreal y = at(coldest, m_limit).y();
        painter.drawLine(QPointF(plot.left(), y), QPointF(plot.right(), y));
        painter.drawText(
            QRectF(plot.left() + 4, y + 1, plot.width() - 8, line * 1.2), Qt::AlignLeft | Qt::AlignTop,
            tr("class limit %1").arg(qt(display.pressure(GaugePressure::fromKilopascal(m_limit)))));
    }
    QPainterPath path;
    path.moveTo(at(m_points.first().x(), std::max(0.0, m_points.first().y())));
    for (const QPointF& point : m_points) {
        path.lineTo(at(point.x(), std::max(0.0, point.y())));
    }
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(palette().color(QPalette::Highlight), 2));
    painter.drawPath(path);
    const double pressure = pressureAt(m_marker);
    if (pressure >= 0) {
        const QPointF spot = at(m_marker, pressure);
        painter.setBrush(palette().color(QPalette::Highlight));
        painter.drawEllipse(spot, 4, 4);
        painter.setPen(palette().color(QPalette::WindowText));
        const QString text = tr("%1 at %2")
                                 .arg(qt(display.pressure(GaugePressure::fromKilopascal(pressure))),
                                      qt(display.temperature(Temperature::fromCelsius(m_marker))));
        const qreal wide = painter.fontMetrics().horizontalAdvance(text);
        painter.drawText(QPointF(std::clamp(spot.x() - wide - 8, plot.left() + 4, plot.right() - wide),
                                 std::max(plot.top() + line, spot.y() - 6)),
                         text);
        setAccessibleDescription(text);
    }
    painter.setPen(theme::quiet(palette()));
    const QRectF below(plot.left(), plot.bottom() + 2, plot.width(), line * 1.3);
    painter.drawText(below, Qt::AlignLeft, qt(display.temperature(Temperature::fromCelsius(coldest))));
    painter.drawText(below, Qt::AlignRight, qt(display.temperature(Temperature::fromCelsius(hottest))));
}

} // namespace tarebook
