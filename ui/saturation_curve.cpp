#include "ui/saturation_curve.h"

#include "ui/kit.h"
#include "ui/theme.h"

#include <QPainter>
#include <QPainterPath>

#include <algorithm>
#include <cmath>

namespace tarebook {

struct SaturationCurve::Plot {
    QRectF area;
    double coldest = -40;
    double hottest = 65;
    double highest = 1; // kPa gauge
    double lowest = -101.325;

    [[nodiscard]] QPointF at(double celsius, double kilopascal) const {
        return {area.left() + area.width() * (celsius - coldest) / (hottest - coldest),
                area.bottom() - area.height() * (kilopascal - lowest) / (highest - lowest)};
    }
};

namespace {

/// 1, 2 or 5 times a power of ten, so that about five fit.
double niceStep(double span) {
    const double raw = span / 5;
    const double power = std::pow(10, std::floor(std::log10(raw)));
    for (const double factor : {1.0, 2.0, 5.0}) {
        if (factor * power >= raw) {
            return factor * power;
        }
    }
    return 10 * power;
}

double gaugeIn(PressureUnit unit, double kilopascal) {
    const auto pressure = GaugePressure::fromKilopascal(kilopascal);
    return unit == PressureUnit::psig  ? pressure.psi()
           : unit == PressureUnit::bar ? pressure.bar()
                                       : pressure.kilopascal();
}

double kilopascalOf(PressureUnit unit, double value) {
    return unit == PressureUnit::psig  ? GaugePressure::fromPsi(value).kilopascal()
           : unit == PressureUnit::bar ? GaugePressure::fromBar(value).kilopascal()
                                       : value;
}

QString unitWord(PressureUnit unit) {
    return unit == PressureUnit::psig  ? QStringLiteral("psig")
           : unit == PressureUnit::bar ? QStringLiteral("bar gauge")
                                       : QStringLiteral("kPa gauge");
}

} // namespace

SaturationCurve::SaturationCurve(QWidget* parent) : QWidget(parent) {
    setObjectName(QStringLiteral("saturationCurve"));
    setAccessibleName(tr("Saturation pressure over temperature"));
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Expanding);
}

void SaturationCurve::setCard(const std::vector<CardRow>& rows, const Settings& settings) {
    m_rows.clear();
    std::copy_if(rows.begin(), rows.end(), std::back_inserter(m_rows),
                 [](const CardRow& row) { return row.state.ok(); });
    m_settings = settings;
    update();
}

void SaturationCurve::setMeasured(const std::optional<Point>& point, const QString& words) {
    m_measured = point;
    m_measuredWords = words;
    update();
}

void SaturationCurve::setLimit(const std::optional<GaugePressure>& limit, const QString& words) {
    m_limit = limit;
    m_limitWords = words;
    update();
}

QSize SaturationCurve::sizeHint() const {
    const int line = fontMetrics().height();
    return {line * 24, line * 16};
}

double SaturationCurve::highest() const {
    double highest = 0;
    for (const CardRow& row : m_rows) {
        highest = std::max(highest, safeBubble(row.state.value()).gauge().kilopascal());
    }
    if (m_measured) {
        highest = std::max(highest, m_measured->pressure.kilopascal());
    }
    // A limit far above the curve would press it flat.
    if (m_limit && m_limit->kilopascal() < highest * 1.6) {
        highest = std::max(highest, m_limit->kilopascal());
    }
    return highest * 1.06;
}

void SaturationCurve::paintAxes(QPainter& painter, const Plot& plot) const {
    const int line = painter.fontMetrics().height();
    const PressureUnit unit = m_settings.pressure;
    const bool fahrenheit = m_settings.temperature == TemperatureUnit::fahrenheit;
    const double top = gaugeIn(unit, plot.highest);
    const double step = niceStep(top);
    for (double value = 0; value <= top; value += step) {
        const qreal y = plot.at(plot.coldest, kilopascalOf(unit, value)).y();
        painter.setPen(theme::line(palette()));
        painter.drawLine(QPointF(plot.area.left(), y), QPointF(plot.area.right(), y));
        painter.setPen(theme::quiet(palette()));
        painter.drawText(QRectF(0, y - line, plot.area.left() - line * 0.3, line * 2),
                         Qt::AlignRight | Qt::AlignVCenter, QString::number(value));
    }
    for (int tick = -40; tick <= 150; tick += fahrenheit ? 30 : 15) {
        const double celsius = fahrenheit ? (tick - 32) / 1.8 : tick;
        if (celsius < plot.coldest - 0.1 || celsius > plot.hottest + 0.1) {
            continue;
        }
        const qreal x = plot.at(celsius, 0).x();
        painter.setPen(theme::line(palette()));
        painter.drawLine(QPointF(x, plot.area.top()), QPointF(x, plot.area.bottom()));
        painter.setPen(theme::quiet(palette()));
        painter.drawText(QRectF(x - line * 2, plot.area.bottom(), line * 4, line * 1.4), Qt::AlignCenter,
                         QString::number(tick));
    }
    painter.setPen(theme::quiet(palette()));
    painter.drawText(QRectF(plot.area.left(), 0, plot.area.width(), line * 1.2), Qt::AlignLeft,
                     unitWord(unit));
    painter.drawText(QRectF(plot.area.left(), plot.area.bottom() + line * 1.2, plot.area.width(), line * 1.3),
                     Qt::AlignRight, fahrenheit ? QStringLiteral("°F") : QStringLiteral("°C"));
    painter.setPen(theme::line(palette()));
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(plot.area);
}

void SaturationCurve::paintBand(QPainter& painter, const Plot& plot) const {
    QPainterPath bubble;
    QPainterPath dew;
    QPolygonF upper;
    QPolygonF lower;
    for (const CardRow& row : m_rows) {
        const Saturation& state = row.state.value();
        const double celsius = row.temperature.celsius();
        const double wide = state.bubble.kilopascal() * state.bubbleUncertaintyPercent / 100;
        const double narrow = state.dew.kilopascal() * state.dewUncertaintyPercent / 100;
        const QPointF onBubble = plot.at(celsius, state.bubble.gauge().kilopascal());
        const QPointF onDew = plot.at(celsius, state.dew.gauge().kilopascal());
        upper.append(plot.at(celsius, state.bubble.gauge().kilopascal() + wide));
        lower.prepend(plot.at(celsius, state.dew.gauge().kilopascal() - narrow));
        bubble.elementCount() == 0 ? bubble.moveTo(onBubble) : bubble.lineTo(onBubble);
        dew.elementCount() == 0 ? dew.moveTo(onDew) : dew.lineTo(onDew);
    }
    QColor wash = palette().color(QPalette::Highlight);
    wash.setAlphaF(0.22F);
    painter.setPen(Qt::NoPen);
    painter.setBrush(wash);
    painter.drawPolygon(upper + lower);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(palette().color(QPalette::Highlight), 2));
    painter.drawPath(bubble);
    painter.setPen(QPen(palette().color(QPalette::Highlight), 1.5, Qt::DashLine));
    painter.drawPath(dew);
}

void SaturationCurve::paintMeasured(QPainter& painter, const Plot& plot) const {
    const qreal arm = painter.fontMetrics().height() * 0.4;
    const QPointF spot = plot.at(m_measured->temperature.celsius(), m_measured->pressure.kilopascal());
    painter.setPen(QPen(palette().color(QPalette::WindowText), 2));
    painter.drawLine(spot - QPointF(arm, 0), spot + QPointF(arm, 0));
    painter.drawLine(spot - QPointF(0, arm), spot + QPointF(0, arm));
    painter.setBrush(Qt::NoBrush);
    painter.drawEllipse(spot, arm * 0.7, arm * 0.7);
    // On the side away from the curve, on a ground of its own: lines may run below.
    const QRectF words = painter.fontMetrics().boundingRect(m_measuredWords);
    QRectF box(0, 0, words.width() + arm, words.height());
    box.moveBottomRight(spot - QPointF(arm * 1.4, arm * 0.6));
    if (box.left() < plot.area.left()) {
        box.moveTopLeft(spot + QPointF(arm * 1.4, arm * 0.6));
    }
    box.moveTop(std::clamp(box.top(), plot.area.top(), plot.area.bottom() - box.height()));
    painter.fillRect(box, palette().color(QPalette::Window));
    painter.drawText(box, Qt::AlignCenter, m_measuredWords);
}

void SaturationCurve::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const int line = fontMetrics().height();
    if (m_rows.size() < 2) {
        painter.setPen(theme::quiet(palette()));
        painter.drawText(rect(), Qt::AlignCenter | Qt::TextWordWrap, tr("No curve for these contents"));
        return;
    }
    Plot plot;
    plot.area = QRectF(line * 3.2, line * 1.4, width() - line * 4.2, height() - line * 4.2);
    plot.highest = highest();
    paintAxes(painter, plot);
    painter.save();
    painter.setClipRect(plot.area);
    paintBand(painter, plot);
    if (m_limit && m_limit->kilopascal() <= plot.highest) {
        const qreal y = plot.at(0, m_limit->kilopascal()).y();
        painter.setPen(QPen(theme::ink(Severity::refusal, palette()), 1.5, Qt::DashDotLine));
        painter.drawLine(QPointF(plot.area.left(), y), QPointF(plot.area.right(), y));
        painter.drawText(QRectF(plot.area.left() + line * 0.4, y + 2, plot.area.width(), line * 1.3),
                         Qt::AlignLeft, m_limitWords);
    }
    if (m_measured) {
        paintMeasured(painter, plot);
    }
    painter.restore();
    painter.setPen(theme::quiet(palette()));
    painter.drawText(QRectF(plot.area.left(), plot.area.bottom() + line * 1.2, plot.area.width(), line * 1.3),
                     Qt::AlignLeft, tr("solid: bubble   dashed: dew   band: uncertainty"));
}

} // namespace tarebook
