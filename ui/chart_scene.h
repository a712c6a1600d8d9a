#pragma once

#include <QFont>
#include <QGraphicsScene>
#include <QPalette>
#include <QRectF>

#include <memory>
#include <vector>

#include "core/shop/answer_chart.h"

class QChart;
class QPainter;

namespace tarebook {

/// The figures of an answer as a chart of a size, in colours, patterns and dashes that can be told apart in
/// black and white. The plot library draws axis, columns and lines; names of points, numbers on columns and
/// names of lines are written here, where they stand.
class ChartScene {
public:
    ChartScene(const AnswerChart& figures, const QPalette& colours, const QFont& type, const QSizeF& size);
    ~ChartScene();
    ChartScene(const ChartScene&) = delete;
    ChartScene& operator=(const ChartScene&) = delete;

    void paint(QPainter& painter, const QRectF& area);
    /// The strip of the plot in which the point stands, in pixels of the size.
    [[nodiscard]] QRectF stripOf(int point) const;
    /// The point whose strip is nearest to x; -1 where there is none.
    [[nodiscard]] int pointAt(qreal x) const;
    /// A size on which nothing is crowded.
    [[nodiscard]] static QSizeF sizeWanted(const AnswerChart& figures, const QFont& type);

private:
    struct Label {
        QString above;
        QString below; // year or month, where another one begins
    };
    [[nodiscard]] int slotOf(int point) const { return point + (m_gap && point > 0 ? 1 : 0); }
    [[nodiscard]] int slotCount() const;
    [[nodiscard]] qreal xOf(int point) const;
    [[nodiscard]] qreal yOf(double value) const;
    [[nodiscard]] std::vector<Label> labels(int step) const;
    void addColumns();
    void addLines();
    void addAxes();
    void paintPointNames(QPainter& painter) const;
    void paintTotals(QPainter& painter) const;
    void paintLineNames(QPainter& painter) const;

    AnswerChart m_figures;
    QPalette m_colours;
    QFont m_type;
    QSizeF m_size;
    QRectF m_plot;
    double m_top = 1; // of the axis of values
    double m_bottom = 0;
    bool m_gap = false;
    QGraphicsScene m_scene;
    QChart* m_chart = nullptr; // the scene's
};

} // namespace tarebook
