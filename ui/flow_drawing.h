#pragma once

#include <QPainterPath>
#include <QWidget>

#include <map>
#include <vector>

#include "core/ledger/posting.h"
#include "core/shop/settings.h"

namespace tarebook {

/// A charge on its way: accounts as boxes in columns from where it came to where it is, legs as bands whose
/// width is their mass. A click on a cylinder opens its card; Ctrl with the wheel, or with + and - once it
/// has the focus, makes it larger and smaller, Ctrl+0 as it was.
class FlowDrawing : public QWidget {
    Q_OBJECT
public:
    explicit FlowDrawing(QWidget* parent = nullptr);
    void setLegs(const std::vector<Leg>& legs, const Settings& settings);
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }
    /// On a page of its own in landscape, with the sentence above it and the books' head below, made smaller
    /// where it would not go on the page. False when the file cannot be written.
    [[nodiscard]] bool writePdf(const QString& path, const QString& sentence, const QString& foot,
                                bool letter) const;
    [[nodiscard]] bool empty() const { return m_boxes.empty(); }
    /// 1 as it was made; from 0.5 to 3.
    void zoom(qreal factor);
    [[nodiscard]] qreal zoomed() const { return m_zoom; }
    /// Draws into a rectangle.
    void paintInto(QPainter& painter, const QRectF& area, const QPalette& colours) const;

signals:
    void cylinderClicked(const QString& serial);

protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    struct Box {
        Account account;
        int column = 0;
        int row = 0;
        std::int64_t in = 0;
        std::int64_t out = 0;
    };
    struct Band {
        std::size_t from = 0;
        std::size_t to = 0;
        std::int64_t mass = 0;
        std::vector<int> lanes; // its row in each column that it passes on its way
    };
    /// A band as it is drawn.
    struct Course {
        QPainterPath path;
        qreal thick = 0;
        QPointF label; // the middle of its figure
        std::int64_t mass = 0;
    };
    [[nodiscard]] std::vector<Course> courses(const QRectF& area) const;
    /// On paper outlines alone, on a screen the colour of a liquid.
    void paintBands(QPainter& painter, const QRectF& area, const QPalette& colours) const;
    [[nodiscard]] QRectF rectOf(const Box& box, const QRectF& area) const;
    [[nodiscard]] QRectF rectAt(int column, int row, const QRectF& area) const;
    /// The row in which a band is when it leaves that column.
    [[nodiscard]] int rowIn(const Band& band, int column) const;
    /// Under each other: the boxes of the column and the bands that pass it, so that none runs behind a box;
    /// in the order in which they come from the left, so that few cross.
    void arrangeRows(int column);
    [[nodiscard]] std::size_t boxOf(const Account& account);
    void arrange();

    std::vector<Box> m_boxes;
    std::vector<Band> m_bands;
    int m_columns = 0;
    int m_rows = 0;
    qreal m_zoom = 1;
    qreal m_points = 0; // of its type at first
    Settings m_settings;
};

} // namespace tarebook
