#include "ui/chart_drawing.h"

#include "ui/chart_scene.h"
#include "ui/drawing_page.h"
#include "ui/kit.h"
#include "ui/paper_font.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>

#include <algorithm>

namespace tarebook {

ChartDrawing::ChartDrawing(QWidget* parent) : QWidget(parent) {
    setObjectName(QStringLiteral("chartDrawing"));
    setAccessibleName(tr("Picture of the answer"));
    setFocusPolicy(Qt::StrongFocus);
    setToolTip(tr("Left and right choose, Enter or a click opens, Escape shows all again."));
}

ChartDrawing::~ChartDrawing() = default;

void ChartDrawing::setChart(const AnswerChart& chart) {
    m_chart = chart;
    m_scene.reset();
    m_chosen = 0;
    setAccessibleName(qt(chart.name));
    QStringList told;
    for (const ChartPoint& point : chart.points) {
        told.append(qt(point.words));
    }
    setAccessibleDescription(told.join(QStringLiteral(". ")));
    updateGeometry();
    update();
}

void ChartDrawing::clear() {
    m_chart.reset();
    m_scene.reset();
    setAccessibleDescription({});
    update();
}

ChartScene& ChartDrawing::scene() {
    if (!m_scene) {
        m_scene = std::make_unique<ChartScene>(*m_chart, palette(), font(), QSizeF(size()));
    }
    return *m_scene;
}

QSize ChartDrawing::sizeHint() const {
    return m_chart ? ChartScene::sizeWanted(*m_chart, font()).toSize() : QSize();
}

QRect ChartDrawing::placeOf(int point) {
    return empty() ? QRect() : scene().stripOf(point).toRect();
}

void ChartDrawing::paintEvent(QPaintEvent*) {
    if (empty()) {
        return;
    }
    QPainter painter(this);
    const QRectF strip = scene().stripOf(m_chosen);
    QColor wash = palette().color(QPalette::Highlight);
    wash.setAlphaF(0.16F);
    painter.fillRect(strip, wash);
    scene().paint(painter, QRectF(rect()));
    if (hasFocus()) {
        painter.setPen(QPen(palette().color(QPalette::Highlight), 2));
        painter.drawRect(strip.adjusted(-1, 1, 1, -1));
    }
}

void ChartDrawing::resizeEvent(QResizeEvent* event) {
    m_scene.reset();
    QWidget::resizeEvent(event);
}

void ChartDrawing::changeEvent(QEvent* event) {
    if (event->type() == QEvent::FontChange || event->type() == QEvent::PaletteChange) {
        m_scene.reset();
        updateGeometry();
        update();
    }
    QWidget::changeEvent(event);
}

void ChartDrawing::choose(int point) {
    m_chosen = point;
    update();
    emit pointChosen(point);
}

void ChartDrawing::mousePressEvent(QMouseEvent* event) {
    if (empty() || event->button() != Qt::LeftButton) {
        return;
    }
    choose(scene().pointAt(event->position().x()));
    emit pointOpened(m_chosen);
}

void ChartDrawing::keyPressEvent(QKeyEvent* event) {
    if (empty()) {
        QWidget::keyPressEvent(event);
        return;
    }
    const int last = static_cast<int>(m_chart->points.size()) - 1;
    switch (event->key()) {
    case Qt::Key_Left:
        choose(std::max(0, m_chosen - 1));
        break;
    case Qt::Key_Right:
        choose(std::min(last, m_chosen + 1));
        break;
    case Qt::Key_Home:
        choose(0);
        break;
    case Qt::Key_End:
        choose(last);
        break;
    case Qt::Key_Return:
    case Qt::Key_Enter:
    case Qt::Key_Space:
        emit pointOpened(m_chosen);
        break;
    case Qt::Key_Escape:
        emit wholeAsked();
        break;
    default:
        QWidget::keyPressEvent(event);
        break;
    }
}

bool ChartDrawing::writePdf(const QString& path, const QString& sentence, const QString& foot,
                            bool letter) const {
    if (empty()) {
        return false;
    }
    // In the face of papers, as large as the window shows it; so it breaks and measures alike everywhere.
    QFont its = font();
    its.setFamilies(paperFont().families());
    QWidget onPaper;
    onPaper.setFont(its);
    its.setPixelSize(onPaper.fontInfo().pixelSize()); // points would be scaled twice
    return writeDrawing({path, accessibleName(), sentence, foot, letter}, onPaper,
                        ChartScene::sizeWanted(*m_chart, its), true,
                        [this, &its](QPainter& painter, const QRectF& area, const QPalette& colours) {
                            ChartScene(*m_chart, colours, its, area.size()).paint(painter, area);
                        });
}

} // namespace tarebook
