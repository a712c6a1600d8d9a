#pragma once

#include <QWidget>

#include <memory>
#include <optional>

#include "core/shop/answer_chart.h"

namespace tarebook {

class ChartScene;

/// The picture of an answer: columns or lines over months or days. Left, right, Home and End choose a point,
/// Enter, Space or a click opens it, Escape goes back to the whole.
class ChartDrawing : public QWidget {
    Q_OBJECT
public:
    explicit ChartDrawing(QWidget* parent = nullptr);
    ~ChartDrawing() override;
    void setChart(const AnswerChart& chart);
    void clear();
    [[nodiscard]] bool empty() const { return !m_chart || m_chart->points.empty(); }
    [[nodiscard]] int chosen() const { return m_chosen; }
    /// The strip of a point in the widget, for who points at it.
    [[nodiscard]] QRect placeOf(int point);
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }
    /// On a page of its own; see ui/drawing_page.h.
    [[nodiscard]] bool writePdf(const QString& path, const QString& sentence, const QString& foot,
                                bool letter) const;

signals:
    void pointChosen(int point);
    void pointOpened(int point);
    void wholeAsked();

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    ChartScene& scene();
    void choose(int point);

    std::optional<AnswerChart> m_chart;
    std::unique_ptr<ChartScene> m_scene; // made anew when size, type or colours change
    int m_chosen = 0;
};

} // namespace tarebook
