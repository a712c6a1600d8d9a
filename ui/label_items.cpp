#include "ui/label_items.h"

#include <QFile>
#include <QPainter>
#include <QPdfWriter>
#include <QPrinter>

#include <algorithm>
#include <cmath>

namespace tarebook {
namespace {

constexpr qreal kMillimetresAnInch = 25.4;

void paintCode(QPainter& painter, const LabelItem& item) {
    const MachineCode& code = item.code;
    const bool bars = code.height == 1;
    const int along = code.width + 2 * code.quiet;
    const int module = qRound((item.upright ? item.box.height() : item.box.width()) / along);
    const QPoint corner = item.box.topLeft().toPoint();
    const int deep = bars ? qRound(item.upright ? item.box.width() : item.box.height()) : module;
    for (int row = 0; row < code.height; ++row) {
        const int down = bars ? 0 : (row + code.quiet) * module;
        for (int column = 0; column < code.width; ++column) {
            int run = column;
            while (run < code.width && code.at(run, row)) {
                ++run;
            }
            if (run == column) {
                continue;
            }
            const int from = (column + code.quiet) * module;
            const int length = (run - column) * module;
            const QRect dark =
                item.upright ? QRect(down, from, deep, length) : QRect(from, down, length, deep);
            painter.fillRect(dark.translated(corner), Qt::black);
            column = run;
        }
    }
}

/// A line to cut along: a dot of a fine printer would not be seen.
qreal frameWidth(const QPainter& painter) {
    constexpr qreal kFrame = 0.2; // mm
    return std::max(1.0, kFrame * painter.device()->logicalDpiX() / kMillimetresAnInch);
}

/// The first page's size must stand before the painter begins.
void paintPages(const LabelMaker& maker, QPagedPaintDevice& device, qreal dotsPerInch) {
    const QVector<LabelPage> pages = maker(dotsPerInch / kMillimetresAnInch);
    device.setPageMargins(QMarginsF(0, 0, 0, 0), QPageLayout::Millimeter);
    QPainter painter;
    for (const LabelPage& page : pages) {
        device.setPageSize(
            QPageSize(page.millimetres, QPageSize::Millimeter, QString(), QPageSize::ExactMatch));
        if (painter.isActive()) {
            device.newPage();
        } else {
            painter.begin(&device);
        }
        paintLabel(painter, page);
    }
}

} // namespace

void paintLabel(QPainter& painter, const LabelPage& page) {
    painter.setRenderHint(QPainter::Antialiasing, false);
    for (const LabelItem& item : page.items) {
        painter.setPen(Qt::black);
        switch (item.kind) {
        case LabelItem::Kind::text:
            painter.setFont(item.font);
            painter.drawText(item.box, Qt::AlignLeft | Qt::AlignVCenter | Qt::TextDontClip, item.text);
            break;
        case LabelItem::Kind::code:
            paintCode(painter, item);
            break;
        case LabelItem::Kind::rule:
            painter.fillRect(item.box, Qt::black);
            break;
        case LabelItem::Kind::frame:
            painter.setPen(QPen(Qt::black, frameWidth(painter), Qt::DashLine));
            painter.setBrush(Qt::NoBrush);
            painter.drawRect(item.box);
            break;
        }
    }
}

QImage labelImage(const LabelPage& page, qreal dotsPerInch) {
    const qreal dots = dotsPerInch / kMillimetresAnInch;
    QImage image(static_cast<int>(std::ceil(page.millimetres.width() * dots)),
                 static_cast<int>(std::ceil(page.millimetres.height() * dots)), QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    paintLabel(painter, page);
    return image;
}

void writeLabels(const LabelMaker& maker, QIODevice& device, const QString& title) {
    QPdfWriter writer(&device);
    writer.setTitle(title);
    writer.setCreator(QStringLiteral("Tarebook"));
    paintPages(maker, writer, writer.resolution());
}

bool labelPdf(const LabelMaker& maker, const QString& path, const QString& title) {
    QFile file(path);
    if (!file.open(QIODevice::WriteOnly)) {
        return false;
    }
    writeLabels(maker, file, title);
    return file.error() == QFileDevice::NoError;
}

void printLabels(const LabelMaker& maker, QPrinter& printer) {
    printer.setFullPage(true);
    paintPages(maker, printer, printer.resolution());
}

} // namespace tarebook
