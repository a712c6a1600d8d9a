#include "ui/flow_drawing.h"

#include "ui/drawing_page.h"
#include "ui/kit.h"
#include "ui/paper_font.h"
#include "ui/theme.h"

#include <QMouseEvent>
#include <QPainter>
#include <QPainterPath>
#include <QWheelEvent>

#include <algorithm>
#include <cmath>
#include <optional>

namespace tarebook {
namespace {

constexpr qreal kZoomStep = 1.2;
constexpr qreal kOfTheBox = 0.8; // of its height are its bands
constexpr qreal kThinnest = 2;
constexpr qreal kOutline = 0.8;
constexpr int kMostPasses = 12; // gas that goes round in circles is drawn in as many columns at most

QString kindWord(AccountKind kind) {
    switch (kind) {
    case AccountKind::cylinder:
        return QObject::tr("cylinder");
    case AccountKind::system:
        return QObject::tr("system");
    case AccountKind::supplier:
        return QObject::tr("supplier");
    case AccountKind::reclaimer:
        return QObject::tr("reclaimer");
    case AccountKind::destroyer:
        return QObject::tr("destroyer");
    case AccountKind::atmosphere:
        return QObject::tr("released");
    case AccountKind::variance:
        return QObject::tr("found by the scale");
    case AccountKind::opening:
        return QObject::tr("when the books began");
    }
    return {};
}

} // namespace

FlowDrawing::FlowDrawing(QWidget* parent) : QWidget(parent) {
    setObjectName(QStringLiteral("flowDrawing"));
    setAccessibleName(tr("Way of the charge"));
    setFocusPolicy(Qt::StrongFocus);
    setToolTip(tr("Ctrl and the wheel, or + and -: larger and smaller. A cylinder opens its card."));
}

std::size_t FlowDrawing::boxOf(const Account& account) {
    for (std::size_t place = 0; place < m_boxes.size(); ++place) {
        if (m_boxes[place].account == account) {
            return place;
        }
    }
    m_boxes.push_back({account, 0, 0, 0, 0});
    return m_boxes.size() - 1;
}

void FlowDrawing::setLegs(const std::vector<Leg>& legs, const Settings& settings) {
    m_settings = settings;
    m_boxes.clear();
    m_bands.clear();
    QStringList told;
    const Display display(settings);
    for (const Leg& leg : legs) {
        const std::size_t from = boxOf(leg.source);
        const std::size_t to = boxOf(leg.target);
        const std::int64_t mass = leg.moved.total().milligrams();
        m_boxes[from].out += mass;
        m_boxes[to].in += mass;
        const auto known = std::find_if(m_bands.begin(), m_bands.end(),
                                        [&](const Band& band) { return band.from == from && band.to == to; });
        if (known == m_bands.end()) {
            m_bands.push_back({from, to, mass, {}});
        } else {
            known->mass += mass;
        }
    }
    for (const Band& band : m_bands) {
        told.append(tr("%1 from %2 to %3")
                        .arg(qt(display.mass(Mass::fromMilligrams(band.mass))),
                             qt(m_boxes[band.from].account.text()), qt(m_boxes[band.to].account.text())));
    }
    setAccessibleDescription(told.join(QStringLiteral("; ")));
    arrange();
    updateGeometry();
    update();
}

void FlowDrawing::arrange() {
    for (int pass = 0; pass < kMostPasses; ++pass) {
        bool moved = false;
        for (const Band& band : m_bands) {
            if (m_boxes[band.to].column <= m_boxes[band.from].column &&
                m_boxes[band.from].column + 1 < kMostPasses) {
                m_boxes[band.to].column = m_boxes[band.from].column + 1;
                moved = true;
            }
        }
        if (!moved) {
            break;
        }
    }
    m_columns = 0;
    m_rows = 0;
    for (const Box& box : m_boxes) {
        m_columns = std::max(m_columns, box.column + 1);
    }
    for (Band& band : m_bands) {
        band.lanes.clear();
    }
    for (int column = 0; column < m_columns; ++column) {
        arrangeRows(column);
    }
}

int FlowDrawing::rowIn(const Band& band, int column) const {
    const int from = m_boxes[band.from].column;
    return column <= from ? m_boxes[band.from].row : band.lanes[static_cast<std::size_t>(column - from - 1)];
}

void FlowDrawing::arrangeRows(int column) {
    struct Place {
        double wanted = 0; // row that it comes from
        Box* box = nullptr;
        Band* band = nullptr;
    };
    std::vector<Place> places;
    places.reserve(m_boxes.size() + m_bands.size());
    for (std::size_t box = 0; box < m_boxes.size(); ++box) {
        if (m_boxes[box].column != column) {
            continue;
        }
        double sum = 0;
        int bands = 0;
        for (const Band& band : m_bands) {
            if (band.to == box && m_boxes[band.from].column < column) {
                sum += rowIn(band, column - 1);
                ++bands;
            }
        }
        places.push_back({bands > 0 ? sum / bands : 0, &m_boxes[box], nullptr});
    }
    for (Band& band : m_bands) {
        if (m_boxes[band.from].column < column && column < m_boxes[band.to].column) {
            places.push_back({static_cast<double>(rowIn(band, column - 1)), nullptr, &band});
        }
    }
    std::stable_sort(places.begin(), places.end(),
                     [](const Place& one, const Place& other) { return one.wanted < other.wanted; });
    for (std::size_t row = 0; row < places.size(); ++row) {
        if (places[row].box != nullptr) {
            places[row].box->row = static_cast<int>(row);
        } else {
            places[row].band->lanes.push_back(static_cast<int>(row));
        }
    }
    m_rows = std::max(m_rows, static_cast<int>(places.size()));
}

QSize FlowDrawing::sizeHint() const {
    const int line = fontMetrics().height();
    return {std::max(1, m_columns) * line * 13, std::max(1, m_rows) * line * 4};
}

QRectF FlowDrawing::rectOf(const Box& box, const QRectF& area) const {
    return rectAt(box.column, box.row, area);
}

QRectF FlowDrawing::rectAt(int column, int row, const QRectF& area) const {
    const qreal line = fontMetrics().height();
    const qreal cell = area.width() / std::max(1, m_columns);
    const qreal tall = area.height() / std::max(1, m_rows);
    const qreal wide = std::min(cell * 0.62, line * 11);
    // The last column ends at the right edge, the first begins at the left one.
    const qreal step = m_columns > 1 ? (area.width() - wide) / (m_columns - 1) : 0;
    return {area.left() + column * step, area.top() + row * tall + tall * 0.12, wide,
            std::min(tall * 0.76, line * 3)};
}

std::vector<FlowDrawing::Course> FlowDrawing::courses(const QRectF& area) const {
    // All bands by the same measure, those of the box through which most went as wide as it gives them.
    std::int64_t most = 1;
    for (const Box& box : m_boxes) {
        most = std::max({most, box.in, box.out});
    }
    std::map<std::size_t, qreal> outAt;
    std::map<std::size_t, qreal> inAt;
    std::vector<Course> made;
    made.reserve(m_bands.size());
    for (const Band& band : m_bands) {
        const QRectF from = rectOf(m_boxes[band.from], area);
        const QRectF to = rectOf(m_boxes[band.to], area);
        const qreal thick =
            from.height() * kOfTheBox * static_cast<qreal>(band.mass) / static_cast<qreal>(most);
        // Side by side at the middle of a box, in the order in which they come.
        const auto spread = [&](const QRectF& box, std::int64_t whole, qreal& used) {
            const qreal all = box.height() * kOfTheBox * static_cast<qreal>(whole) / static_cast<qreal>(most);
            const qreal y = box.center().y() - all / 2 + used + thick / 2;
            used += thick;
            return y;
        };
        const QPointF start(from.right(), spread(from, m_boxes[band.from].out, outAt[band.from]));
        const QPointF end(to.left(), spread(to, m_boxes[band.to].in, inAt[band.to]));
        QPainterPath path(start);
        const auto bendTo = [&path](const QPointF& point) {
            const QPointF bend(std::max<qreal>(20, std::abs(point.x() - path.currentPosition().x()) / 2), 0);
            path.cubicTo(path.currentPosition() + bend, point - bend, point);
        };
        std::optional<QPointF> label;
        int column = m_boxes[band.from].column;
        for (const int lane : band.lanes) {
            const QRectF passed = rectAt(++column, lane, area);
            label = label.value_or(passed.center());
            bendTo({passed.left(), passed.center().y()});
            path.lineTo(passed.right(), passed.center().y());
        }
        bendTo(end);
        const QPointF middle = label.value_or(path.pointAtPercent(0.5));
        made.push_back({path, std::max(kThinnest, thick), middle, band.mass});
    }
    return made;
}

void FlowDrawing::paintBands(QPainter& painter, const QRectF& area, const QPalette& colours) const {
    const Display display(m_settings);
    const std::vector<Course> bands = courses(area);
    for (const Course& band : bands) {
        if (theme::isPaper(colours)) {
            // An outline around the white of the paper: where two cross, one is seen to lie above.
            QPainterPathStroker stroker;
            stroker.setWidth(band.thick);
            stroker.setCapStyle(Qt::FlatCap);
            painter.setPen(QPen(colours.color(QPalette::WindowText), kOutline));
            painter.setBrush(colours.color(QPalette::Base));
            painter.drawPath(stroker.createStroke(band.path).simplified());
        } else {
            QColor colour = theme::liquid(colours);
            colour.setAlphaF(0.55F);
            painter.setBrush(Qt::NoBrush);
            painter.setPen(QPen(colour, band.thick, Qt::SolidLine, Qt::FlatCap));
            painter.drawPath(band.path);
        }
    }
    const QFontMetricsF type(painter.fontMetrics());
    for (const Course& band : bands) {
        const QString text = qt(display.mass(Mass::fromMilligrams(band.mass)));
        QRectF ground(0, 0, type.horizontalAdvance(text) + type.averageCharWidth(), type.height());
        ground.moveCenter(band.label);
        if (theme::isPaper(colours)) {
            painter.fillRect(ground, colours.color(QPalette::Base)); // no outline runs through a figure
        }
        painter.setPen(colours.color(QPalette::WindowText));
        painter.drawText(ground, Qt::AlignCenter, text);
    }
}

void FlowDrawing::paintInto(QPainter& painter, const QRectF& area, const QPalette& colours) const {
    const Display display(m_settings);
    painter.setRenderHint(QPainter::Antialiasing);
    paintBands(painter, area, colours);
    for (const Box& box : m_boxes) {
        const QRectF rect = rectOf(box, area);
        const bool cylinder = box.account.kind == AccountKind::cylinder;
        painter.setPen(QPen(colours.color(QPalette::WindowText), cylinder ? 1.5 : 1));
        painter.setBrush(colours.color(QPalette::Base));
        painter.drawRoundedRect(rect, cylinder ? rect.height() / 3 : 3, cylinder ? rect.height() / 3 : 3);
        const QString name = box.account.name.empty() ? kindWord(box.account.kind) : qt(box.account.name);
        const QRectF inside = rect.adjusted(6, 2, -6, -2);
        painter.drawText(
            QRectF(inside.left(), inside.top(), inside.width(), inside.height() / 2),
            Qt::AlignLeft | Qt::AlignVCenter,
            painter.fontMetrics().elidedText(name, Qt::ElideMiddle, static_cast<int>(inside.width())));
        painter.setPen(theme::quiet(colours));
        const std::int64_t stays = box.in - box.out;
        const QString below = cylinder && stays > 0
                                  ? tr("%1 is here").arg(qt(display.mass(Mass::fromMilligrams(stays))))
                              : box.account.name.empty() ? QString()
                                                         : kindWord(box.account.kind);
        painter.drawText(QRectF(inside.left(), inside.center().y(), inside.width(), inside.height() / 2),
                         Qt::AlignLeft | Qt::AlignVCenter, below);
    }
}

void FlowDrawing::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    if (m_boxes.empty()) {
        painter.setPen(theme::quiet(palette()));
        painter.drawText(rect(), Qt::AlignCenter, tr("Ask a question above."));
        return;
    }
    paintInto(painter, QRectF(rect()).adjusted(4, 4, -4, -4), palette());
}

void FlowDrawing::zoom(qreal factor) {
    constexpr qreal kLeast = 0.5;
    constexpr qreal kMost = 3;
    if (m_points == 0) {
        m_points = font().pointSizeF();
    }
    m_zoom = std::clamp(factor, kLeast, kMost);
    QFont type = font();
    type.setPointSizeF(m_points * m_zoom); // boxes and gaps are measured in lines of it
    setFont(type);
    updateGeometry();
    update();
}

void FlowDrawing::wheelEvent(QWheelEvent* event) {
    if ((event->modifiers() & Qt::ControlModifier) == 0 || event->angleDelta().y() == 0) {
        event->ignore(); // the place scrolls
        return;
    }
    zoom(event->angleDelta().y() > 0 ? m_zoom * kZoomStep : m_zoom / kZoomStep);
    event->accept();
}

void FlowDrawing::keyPressEvent(QKeyEvent* event) {
    if (event->matches(QKeySequence::ZoomIn)) {
        zoom(m_zoom * kZoomStep);
    } else if (event->matches(QKeySequence::ZoomOut)) {
        zoom(m_zoom / kZoomStep);
    } else if (event->key() == Qt::Key_0 && (event->modifiers() & Qt::ControlModifier) != 0) {
        zoom(1);
    } else {
        QWidget::keyPressEvent(event);
    }
}

bool FlowDrawing::writePdf(const QString& path, const QString& sentence, const QString& foot,
                           bool letter) const {
    // Measured in the face of papers, as large as the window shows it.
    FlowDrawing onPaper;
    QFont its = font();
    its.setFamilies(paperFont().families());
    onPaper.setFont(its);
    onPaper.m_boxes = m_boxes;
    onPaper.m_bands = m_bands;
    onPaper.m_columns = m_columns;
    onPaper.m_rows = m_rows;
    onPaper.m_settings = m_settings;
    return writeDrawing({path, accessibleName(), sentence, foot, letter}, onPaper, onPaper.sizeHint(), false,
                        [&onPaper](QPainter& painter, const QRectF& area, const QPalette& colours) {
                            onPaper.paintInto(painter, area, colours);
                        });
}

void FlowDrawing::mousePressEvent(QMouseEvent* event) {
    const QRectF area = QRectF(rect()).adjusted(4, 4, -4, -4);
    for (const Box& box : m_boxes) {
        if (box.account.kind == AccountKind::cylinder && rectOf(box, area).contains(event->position())) {
            emit cylinderClicked(qt(box.account.name));
            return;
        }
    }
}

} // namespace tarebook
