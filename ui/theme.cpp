#include "ui/theme.h"

#include "ui/counter_style.h"

#include <QApplication>
#include <QFont>
#include <QPainter>
#include <QPainterPath>
#include <QPixmap>

#include <cmath>

namespace tarebook::theme {
namespace {

struct Colours {
    const char* window;
    const char* base;
    const char* alternate;
    const char* text;
    const char* quiet;
    const char* button;
    const char* accent;
    const char* onAccent;
    const char* link;
};
// Paper and pine by day, slate and sea-glass by night: our own set.
constexpr Colours kLight = {"#efede6", "#fbfaf6", "#f4f2eb", "#20302f", "#56655f",
                            "#e6e3d9", "#1f6a5c", "#ffffff", "#17584c"};
constexpr Colours kDark = {"#1d2424", "#161c1c", "#1b2222", "#e4e6de", "#9fada6",
                           "#2a3332", "#5fb8a3", "#0e1a17", "#84d0bd"};

constexpr QColor kPaperGrey = QColor(160, 160, 160); // Qt's own grey has more blue than red

QColor colour(const char* text) {
    return QColor(QLatin1String(text));
}

QPalette paletteOf(const Colours& colours) {
    QPalette palette;
    palette.setColor(QPalette::Window, colour(colours.window));
    palette.setColor(QPalette::WindowText, colour(colours.text));
    palette.setColor(QPalette::Base, colour(colours.base));
    palette.setColor(QPalette::AlternateBase, colour(colours.alternate));
    palette.setColor(QPalette::Text, colour(colours.text));
    palette.setColor(QPalette::PlaceholderText, colour(colours.quiet));
    palette.setColor(QPalette::Button, colour(colours.button));
    palette.setColor(QPalette::ButtonText, colour(colours.text));
    palette.setColor(QPalette::BrightText, colour(colours.onAccent));
    palette.setColor(QPalette::ToolTipBase, colour(colours.base));
    palette.setColor(QPalette::ToolTipText, colour(colours.text));
    palette.setColor(QPalette::Highlight, colour(colours.accent));
    palette.setColor(QPalette::HighlightedText, colour(colours.onAccent));
    palette.setColor(QPalette::Link, colour(colours.link));
    palette.setColor(QPalette::LinkVisited, colour(colours.link));
    const QColor faint = blend(colour(colours.quiet), colour(colours.window), 0.35);
    for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText}) {
        palette.setColor(QPalette::Disabled, role, faint);
    }
    return palette;
}

QPainterPath polygon(const QRectF& box, int corners, double turn) {
    QPainterPath path;
    for (int corner = 0; corner < corners; ++corner) {
        const double angle = turn + 2 * M_PI * corner / corners;
        const QPointF point(box.center().x() + box.width() / 2 * std::cos(angle),
                            box.center().y() + box.height() / 2 * std::sin(angle));
        corner == 0 ? path.moveTo(point) : path.lineTo(point);
    }
    path.closeSubpath();
    return path;
}

QPainterPath shapeOf(Severity severity, const QRectF& box) {
    QPainterPath path;
    switch (severity) {
    case Severity::note:
        path.addEllipse(
            box.adjusted(box.width() * 0.06, box.height() * 0.06, -box.width() * 0.06, -box.height() * 0.06));
        return path;
    case Severity::caution:
        path.moveTo(box.center().x(), box.top() + box.height() * 0.04);
        path.lineTo(box.right(), box.bottom() - box.height() * 0.06);
        path.lineTo(box.left(), box.bottom() - box.height() * 0.06);
        path.closeSubpath();
        return path;
    case Severity::refusal:
        return polygon(box, 8, M_PI / 8);
    case Severity::danger:
        return polygon(box, 4, 0);
    }
    return path;
}

} // namespace

void apply(QApplication& application, bool dark, double scale) {
    QFont font = QApplication::font();
    const double points = font.pointSizeF() > 0 ? font.pointSizeF() : 10;
    font.setPointSizeF(std::max(points, 10.0) * scale);
    const QFontMetrics metrics(font);
    QApplication::setStyle(new CounterStyle(font));
    QApplication::setPalette(paletteOf(dark ? kDark : kLight));
    QApplication::setFont(font);
    application.setStyleSheet(
        QStringLiteral("QToolTip { padding: 4px; }"
                       "QHeaderView::section { padding: 0.35em 0.5em; border: none; border-bottom: 1px solid "
                       "palette(mid);"
                       " background: palette(window); color: palette(window-text); font-weight: 600; }"
                       "QPushButton { padding: 0.35em 0.9em; }"
                       "QAbstractSpinBox { min-height: %1px; }"
                       "QDateEdit { min-width: %2px; }")
            .arg(CounterStyle::fieldHeight(font))
            .arg(metrics.horizontalAdvance(QStringLiteral("0000-00-00")) + 3 * metrics.height()));
}

bool isDark(const QPalette& palette) {
    return palette.color(QPalette::Window).lightness() < palette.color(QPalette::WindowText).lightness();
}

QPalette paper() {
    return {Qt::black, Qt::white, Qt::lightGray, Qt::darkGray, kPaperGrey, Qt::black, Qt::white};
}

bool isPaper(const QPalette& palette) {
    return palette.color(QPalette::Window) == QColor(Qt::white) &&
           palette.color(QPalette::WindowText) == QColor(Qt::black);
}

QColor blend(const QColor& one, const QColor& other, double share) {
    const auto mix = [share](int from, int to) {
        return static_cast<int>(std::lround(from + (to - from) * share));
    };
    return QColor(mix(one.red(), other.red()), mix(one.green(), other.green()),
                  mix(one.blue(), other.blue()));
}

QColor ink(Severity severity, const QPalette& palette) {
    if (isPaper(palette)) {
        return palette.color(QPalette::WindowText);
    }
    const bool dark = isDark(palette);
    switch (severity) {
    case Severity::note:
        return colour(dark ? "#9db8c9" : "#3b5f77");
    case Severity::caution:
        return colour(dark ? "#e2b65a" : "#7d5600");
    case Severity::refusal:
        return colour(dark ? "#e88f5e" : "#9c3f0c");
    case Severity::danger:
        return colour(dark ? "#f07f95" : "#a3123a");
    }
    return palette.color(QPalette::Text);
}

QColor wash(Severity severity, const QPalette& palette) {
    return blend(palette.color(QPalette::Base), ink(severity, palette), isDark(palette) ? 0.16 : 0.09);
}

QString word(Severity severity) {
    const QString word = QString::fromStdString(severityWord(severity));
    return word.left(1).toUpper() + word.mid(1);
}

void paintMark(QPainter& painter, const QRectF& box, Severity severity, const QPalette& palette) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(Qt::NoPen);
    painter.setBrush(ink(severity, palette));
    painter.drawPath(shapeOf(severity, box));
    const QColor sign = palette.color(QPalette::Base);
    const double side = box.width();
    QPen pen(sign, side * 0.13, Qt::SolidLine, Qt::RoundCap);
    painter.setPen(pen);
    const QPointF middle = box.center();
    if (severity == Severity::refusal) {
        painter.drawLine(middle - QPointF(side * 0.24, 0), middle + QPointF(side * 0.24, 0));
    } else {
        const double lower = severity == Severity::caution ? side * 0.1 : 0;
        const bool info = severity == Severity::note;
        const QPointF stroke = middle + QPointF(0, lower + (info ? side * 0.08 : -side * 0.1));
        painter.drawLine(stroke - QPointF(0, side * 0.12), stroke + QPointF(0, side * 0.12));
        painter.drawPoint(middle + QPointF(0, lower + (info ? -side * 0.24 : side * 0.23)));
    }
    painter.restore();
}

QPixmap mark(Severity severity, const QPalette& palette, int side, qreal pixelRatio) {
    QPixmap pixmap(QSize(side, side) * pixelRatio);
    pixmap.setDevicePixelRatio(pixelRatio);
    pixmap.fill(Qt::transparent);
    QPainter painter(&pixmap);
    paintMark(painter, QRectF(0.5, 0.5, side - 1, side - 1), severity, palette);
    return pixmap;
}

QColor quiet(const QPalette& palette) {
    return palette.color(QPalette::PlaceholderText);
}

QColor line(const QPalette& palette) {
    return blend(palette.color(QPalette::Window), palette.color(QPalette::WindowText), 0.2);
}

QColor liquid(const QPalette& palette) {
    return isPaper(palette) ? kPaperGrey : colour(isDark(palette) ? "#3f8fa8" : "#5aa5bd");
}

void paintGlyph(QPainter& painter, const QRectF& box, const QString& name, const QColor& colour) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.translate(box.topLeft());
    painter.scale(box.width() / 24, box.height() / 24);
    painter.setPen(QPen(colour, 1.8, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.setBrush(Qt::NoBrush);
    if (name == QLatin1String("today")) {
        painter.drawEllipse(QRectF(4, 4, 16, 16));
        painter.drawPolyline(QPolygonF({{12, 7.5}, {12, 12}, {15.5, 14}}));
    } else if (name == QLatin1String("fleet")) {
        painter.drawRoundedRect(QRectF(3.5, 8, 7, 13), 2.5, 2.5);
        painter.drawRoundedRect(QRectF(13.5, 8, 7, 13), 2.5, 2.5);
        painter.drawLine(QPointF(7, 8), QPointF(7, 4.5));
        painter.drawLine(QPointF(17, 8), QPointF(17, 4.5));
        painter.drawLine(QPointF(5.5, 4.5), QPointF(8.5, 4.5));
        painter.drawLine(QPointF(15.5, 4.5), QPointF(18.5, 4.5));
    } else if (name == QLatin1String("jobs")) {
        painter.drawLine(QPointF(3.5, 8.5), QPointF(19, 8.5));
        painter.drawPolyline(QPolygonF({{15.5, 5}, {19.5, 8.5}, {15.5, 12}}));
        painter.drawLine(QPointF(5, 16.5), QPointF(20.5, 16.5));
        painter.drawPolyline(QPolygonF({{8.5, 13}, {4.5, 16.5}, {8.5, 20}}));
    } else if (name == QLatin1String("returns")) {
        painter.drawArc(QRectF(5, 5.5, 14, 14), 200 * 16, -260 * 16);
        painter.drawPolyline(QPolygonF({{3, 11.5}, {5.6, 15}, {9, 12.5}}));
    } else {
        painter.drawPolyline(
            QPolygonF({{12, 6.5}, {4, 4.5}, {4, 18}, {12, 20}, {20, 18}, {20, 4.5}, {12, 6.5}}));
        painter.drawLine(QPointF(12, 6.5), QPointF(12, 20));
    }
    painter.restore();
}

} // namespace tarebook::theme
