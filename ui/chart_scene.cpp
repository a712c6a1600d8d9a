#include "ui/chart_scene.h"

#include "ui/chart_marks.h"
#include "ui/kit.h"
#include "ui/theme.h"

#include <QBarSet>
#include <QChart>
#include <QFontMetricsF>
#include <QGraphicsLayout>
#include <QLegend>
#include <QLegendMarker>
#include <QLineSeries>
#include <QLocale>
#include <QPainter>
#include <QStackedBarSeries>
#include <QValueAxis>

#include <algorithm>
#include <cmath>

namespace tarebook {
namespace {

constexpr double kColumnWidth = 0.7;  // of its slot
constexpr double kKilogram = 1e6;     // in milligrams
constexpr double kPound = 453'592.37; // likewise, international yard and pound agreement, 1959
constexpr int kTicks = 5;

double shownValue(const AnswerChart& figures, std::int64_t value) {
    const auto number = static_cast<double>(value);
    switch (figures.unit) {
    case AnswerChart::Unit::kilograms:
        return number / kKilogram;
    case AnswerChart::Unit::pounds:
        return number / kPound;
    case AnswerChart::Unit::cylinders:
        break;
    }
    return number;
}

/// The next of 1, 2, 5, 10, 20, ... that is at least this.
double niceStep(double least) {
    const double power = std::pow(10, std::floor(std::log10(least)));
    for (const double digit : {1.0, 2.0, 5.0}) {
        if (digit * power >= least * (1 - 1e-9)) {
            return digit * power;
        }
    }
    return 10 * power;
}

/// From the least to the most; zero is always among it.
struct Span {
    double least = 0;
    double most = 0;

    void take(double value) {
        least = std::min(least, value);
        most = std::max(most, value);
    }
};

Span spanOf(const AnswerChart& figures) {
    Span span;
    if (figures.shape == AnswerChart::Shape::columns) {
        for (const std::int64_t total : figures.totals) {
            span.take(shownValue(figures, total));
        }
        return span;
    }
    for (const ChartSeries& one : figures.series) {
        for (const std::int64_t value : one.values) {
            span.take(shownValue(figures, value));
        }
    }
    return span;
}

double stepOf(const AnswerChart& figures) {
    const Span span = spanOf(figures);
    const double step = niceStep(std::max(span.most - span.least, 1e-6) / kTicks);
    return figures.unit == AnswerChart::Unit::cylinders ? std::max(1.0, step) : step;
}

QString valueText(double value, double step) {
    const int decimals = step >= 1 ? 0 : static_cast<int>(std::ceil(-std::log10(step) - 1e-9));
    return QLocale::c().toString(value, 'f', decimals);
}

qreal nameWidth(const AnswerChart& figures, const QFontMetricsF& metrics) {
    qreal wide = 0;
    for (const ChartSeries& one : figures.series) {
        wide = std::max(wide, metrics.horizontalAdvance(qt(one.name)));
    }
    return wide;
}

} // namespace

ChartScene::ChartScene(const AnswerChart& figures, const QPalette& colours, const QFont& type,
                       const QSizeF& size)
    : m_figures(figures), m_colours(colours), m_type(type), m_size(size),
      m_gap(!figures.points.empty() && figures.points.front().apart) {
    const QFontMetricsF metrics(type);
    const qreal line = metrics.height();
    const double step = stepOf(figures);
    const Span span = spanOf(figures);
    m_bottom = step * std::floor(span.least / step); // zero, or below it where the books are
    m_top = step * std::max(m_bottom < 0 ? 0.0 : 1.0, std::ceil(span.most / step));
    const bool columns = figures.shape == AnswerChart::Shape::columns;
    const qreal left = std::max(metrics.horizontalAdvance(valueText(m_top, step)),
                                metrics.horizontalAdvance(valueText(m_bottom, step))) +
                       line * 2.2;
    const qreal right = columns ? line * 0.5 : nameWidth(figures, metrics) + line * 2.2;
    m_plot = QRectF(QPointF(left, line * (columns ? 2.8 : 1.6)),
                    QPointF(size.width() - right, size.height() - line * 3.4));
    m_chart = new QChart;
    m_chart->setBackgroundVisible(false);
    m_chart->setMargins({});
    m_chart->setFont(type);
    m_chart->resize(size);
    m_scene.setSceneRect(QRectF(QPointF(), size));
    m_scene.addItem(m_chart);
    columns ? addColumns() : addLines();
    addAxes();
    m_chart->setPlotArea(m_plot);
    m_chart->layout()->activate(); // at once: on paper no event comes in between that would
}

ChartScene::~ChartScene() = default;

int ChartScene::slotCount() const {
    return static_cast<int>(m_figures.points.size()) + (m_gap ? 1 : 0);
}

qreal ChartScene::xOf(int point) const {
    return m_plot.left() + m_plot.width() * (slotOf(point) + 0.5) / std::max(1, slotCount());
}

qreal ChartScene::yOf(double value) const {
    return m_plot.bottom() - m_plot.height() * (value - m_bottom) / (m_top - m_bottom);
}

void ChartScene::addColumns() {
    auto* stack = new QStackedBarSeries;
    stack->setBarWidth(kColumnWidth);
    int number = 0;
    for (const ChartSeries& one : m_figures.series) {
        auto* set = new QBarSet(qt(one.name));
        for (std::size_t point = 0; point < one.values.size(); ++point) {
            *set << shownValue(m_figures, one.values[point]);
            if (m_gap && point == 0) {
                *set << 0; // what stands apart is followed by an empty slot
            }
        }
        set->setBrush(chart_marks::brush(number, m_colours));
        set->setPen(QPen(m_colours.color(QPalette::WindowText), 1));
        stack->append(set);
        ++number;
    }
    m_chart->addSeries(stack);
    QLegend* legend = m_chart->legend();
    legend->setAlignment(Qt::AlignTop);
    legend->setFont(m_type);
    legend->setLabelColor(m_colours.color(QPalette::WindowText));
    legend->detachFromChart();
    legend->setBackgroundVisible(false);
    legend->setGeometry(QRectF(m_plot.left(), 0, m_plot.width(), QFontMetricsF(m_type).height() * 2));
}

void ChartScene::addLines() {
    int number = 0;
    for (const ChartSeries& one : m_figures.series) {
        auto* line = new QLineSeries;
        line->setName(qt(one.name));
        for (std::size_t point = 0; point < one.values.size(); ++point) {
            line->append(slotOf(static_cast<int>(point)), shownValue(m_figures, one.values[point]));
        }
        line->setPen(chart_marks::pen(number, m_colours, QFontMetricsF(m_type).height()));
        m_chart->addSeries(line);
        ++number;
    }
    m_chart->legend()->hide();
}

void ChartScene::addAxes() {
    auto* across = new QValueAxis;
    across->setRange(-0.5, slotCount() - 0.5);
    across->setLabelsVisible(false); // written under their points
    across->setGridLineVisible(false);
    across->setLineVisible(false); // its ticks would stand between the points
    auto* up = new QValueAxis;
    const double step = stepOf(m_figures);
    up->setRange(m_bottom, m_top);
    up->setTickType(QValueAxis::TicksDynamic);
    up->setTickAnchor(0);
    up->setTickInterval(step);
    up->setLabelFormat(QStringLiteral("%.%1f").arg(valueText(step, step).section(u'.', 1).size()));
    up->setLabelsFont(m_type);
    up->setLabelsColor(m_colours.color(QPalette::WindowText));
    up->setTitleText(qt(m_figures.up));
    up->setTitleFont(m_type);
    up->setTitleBrush(m_colours.color(QPalette::WindowText));
    up->setLinePenColor(m_colours.color(QPalette::WindowText));
    up->setGridLineColor(theme::blend(theme::line(m_colours), m_colours.color(QPalette::Window), 0.3));
    m_chart->addAxis(across, Qt::AlignBottom);
    m_chart->addAxis(up, Qt::AlignLeft);
    for (QAbstractSeries* series : m_chart->series()) {
        series->attachAxis(across);
        series->attachAxis(up);
    }
}

std::vector<ChartScene::Label> ChartScene::labels(int step) const {
    std::vector<Label> all(m_figures.points.size());
    QString last;
    for (std::size_t point = 0; point < all.size(); ++point) {
        if (static_cast<int>(point) % step != 0) {
            continue;
        }
        const QString text = qt(m_figures.points[point].label);
        const QStringList parts = text.split(u'-');
        Label& label = all[point];
        const QString month =
            parts.size() > 1 ? QLocale::c().monthName(parts[1].toInt(), QLocale::ShortFormat) : QString();
        label.above = parts.size() == 3 ? parts[2] : parts.size() == 2 ? month : text;
        const QString whole = parts.size() == 3   ? month + u' ' + parts[0]
                              : parts.size() == 2 ? parts[0]
                                                  : QString();
        label.below = whole == last ? QString() : whole;
        last = whole;
    }
    return all;
}

void ChartScene::paintPointNames(QPainter& painter) const {
    const QFontMetricsF metrics(m_type);
    const qreal line = metrics.height();
    const qreal slot = m_plot.width() / std::max(1, slotCount());
    // As many as there is room for: each, every second, every third, quarters, half years, years.
    int step = 1;
    for (const int next : {2, 3, 4, 6, 12, 24, 60, 120, 365}) {
        if (slot * step < metrics.horizontalAdvance(QStringLiteral("Mmm ")) && !m_gap) {
            step = next;
        }
    }
    const auto all = labels(step);
    qreal free = 0; // where the lower line of names is free again
    painter.setPen(m_colours.color(QPalette::WindowText));
    for (std::size_t point = 0; point < all.size(); ++point) {
        const QRectF box(xOf(static_cast<int>(point)) - line * 5, m_plot.bottom() + line * 0.25, line * 10,
                         line);
        painter.drawText(box, Qt::AlignHCenter | Qt::AlignVCenter, all[point].above);
        if (m_figures.points[point].apart) {
            theme::paintMark(painter, QRectF(box.center().x() - line / 2, box.bottom(), line, line),
                             Severity::caution, m_colours);
            painter.setPen(m_colours.color(QPalette::WindowText));
            continue;
        }
        const qreal wide = metrics.horizontalAdvance(all[point].below);
        if (!all[point].below.isEmpty() && box.center().x() - wide / 2 >= free) {
            painter.drawText(box.translated(0, line), Qt::AlignHCenter | Qt::AlignVCenter, all[point].below);
            free = box.center().x() + wide / 2 + line * 0.4;
        }
    }
    painter.drawText(QRectF(m_plot.left(), m_plot.bottom() + line * 2.3, m_plot.width(), line),
                     Qt::AlignHCenter, qt(m_figures.across));
}

void ChartScene::paintTotals(QPainter& painter) const {
    const qreal line = QFontMetricsF(m_type).height();
    painter.setPen(m_colours.color(QPalette::WindowText));
    for (std::size_t point = 0; point < m_figures.totals.size(); ++point) {
        const std::int64_t total = m_figures.totals[point];
        if (total != 0) {
            const qreal top = yOf(shownValue(m_figures, total));
            painter.drawText(
                QRectF(xOf(static_cast<int>(point)) - line * 3, top - line * 1.05, line * 6, line),
                Qt::AlignHCenter | Qt::AlignBottom, QString::number(total));
        }
    }
}

void ChartScene::paintLineNames(QPainter& painter) const {
    const qreal line = QFontMetricsF(m_type).height();
    struct Name {
        qreal at = 0;
        qreal y = 0;
        std::size_t series = 0;
    };
    std::vector<Name> names;
    for (std::size_t series = 0; series < m_figures.series.size(); ++series) {
        const auto& values = m_figures.series[series].values;
        if (!values.empty()) {
            const qreal y = yOf(shownValue(m_figures, values.back()));
            names.push_back({y, y, series});
        }
    }
    std::stable_sort(names.begin(), names.end(),
                     [](const Name& one, const Name& other) { return one.at < other.at; });
    qreal last = m_plot.top() - line;
    for (Name& name : names) { // downwards, none over another
        name.y = std::max(name.y, last + line);
        last = name.y;
    }
    qreal next = m_plot.bottom() + line;
    for (auto name = names.rbegin(); name != names.rend(); ++name) { // and up again from the lower edge
        name->y = std::min(name->y, next - line);
        next = name->y;
    }
    const qreal end = xOf(static_cast<int>(m_figures.points.size()) - 1);
    for (const Name& name : names) {
        const QPen pen = chart_marks::pen(static_cast<int>(name.series), m_colours, line);
        painter.setPen(QPen(pen.color(), 1));
        painter.drawLine(QPointF(end, name.at), QPointF(m_plot.right() + line * 0.6, name.y));
        painter.setPen(pen);
        painter.drawLine(QPointF(m_plot.right() + line * 0.6, name.y),
                         QPointF(m_plot.right() + line * 1.8, name.y));
        painter.setPen(m_colours.color(QPalette::WindowText));
        painter.drawText(QRectF(m_plot.right() + line * 2, name.y - line / 2, m_size.width(), line),
                         Qt::AlignLeft | Qt::AlignVCenter, qt(m_figures.series[name.series].name));
    }
}

void ChartScene::paint(QPainter& painter, const QRectF& area) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    m_scene.render(&painter, area, m_scene.sceneRect());
    painter.translate(area.topLeft());
    painter.setFont(m_type);
    painter.setPen(QPen(m_colours.color(QPalette::WindowText), 1));
    painter.drawLine(QPointF(m_plot.left(), yOf(0)), QPointF(m_plot.right(), yOf(0)));
    paintPointNames(painter);
    m_figures.shape == AnswerChart::Shape::columns ? paintTotals(painter) : paintLineNames(painter);
    painter.restore();
}

QRectF ChartScene::stripOf(int point) const {
    const qreal slot = m_plot.width() / std::max(1, slotCount());
    const qreal wide = std::max(slot, QFontMetricsF(m_type).height() * 0.4);
    return {xOf(point) - wide / 2, m_plot.top(), wide, m_plot.height()};
}

int ChartScene::pointAt(qreal x) const {
    int nearest = -1;
    qreal least = 0;
    for (int point = 0; point < static_cast<int>(m_figures.points.size()); ++point) {
        const qreal distance = std::abs(xOf(point) - x);
        if (nearest < 0 || distance < least) {
            nearest = point;
            least = distance;
        }
    }
    return nearest;
}

QSizeF ChartScene::sizeWanted(const AnswerChart& figures, const QFont& type) {
    const QFontMetricsF metrics(type);
    const qreal line = metrics.height();
    constexpr qreal kTall = 14;
    constexpr qreal kWide = 34;
    if (figures.shape == AnswerChart::Shape::lines) {
        return {line * kWide + nameWidth(figures, metrics),
                line * std::max(kTall, 5.5 + static_cast<qreal>(figures.series.size()))};
    }
    const qreal slot = metrics.horizontalAdvance(QStringLiteral("Mmm "));
    return {std::max(line * kWide, slot * static_cast<qreal>(figures.points.size() + 1) + line * 5),
            line * kTall};
}

} // namespace tarebook
