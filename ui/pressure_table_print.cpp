#include "ui/pressure_table_print.h"

#include "ui/kit.h"
#include "ui/paper_font.h"

#include <QFile>
#include <QPainter>
#include <QPdfWriter>

namespace tarebook {
namespace {

constexpr int kBlocks = 2;    // tables side by side
constexpr double kGap = 0.06; // between them, of the width
constexpr int kMarginMm = 15;
constexpr int kColumns = 6;
// °F, °C, bubble psig, bubble bar, dew psig, dew bar
constexpr double kShares[kColumns] = {0.13, 0.13, 0.19, 0.18, 0.19, 0.18};

QStringList cellsOf(const CardRow& row) {
    QStringList cells{QString::number(row.temperature.fahrenheit(), 'f', 1),
                      QString::number(row.temperature.celsius(), 'f', 0)};
    if (!row.state) {
        return cells + QStringList{QStringLiteral("–"), {}, {}, {}};
    }
    const Saturation& state = row.state.value();
    return cells + QStringList{QString::number(state.bubble.gauge().psi(), 'f', 1),
                               QString::number(state.bubble.gauge().bar(), 'f', 2),
                               QString::number(state.dew.gauge().psi(), 'f', 1),
                               QString::number(state.dew.gauge().bar(), 'f', 2)};
}

/// Words, wrapped to the width from `y` down; returns where they end.
qreal write(QPainter& painter, qreal y, qreal wide, const QString& words) {
    const QRectF box(0, y, wide, 1e6);
    QRectF taken;
    painter.drawText(box, Qt::TextWordWrap, words, &taken);
    return taken.bottom();
}

void drawRow(QPainter& painter, qreal left, qreal y, qreal wide, qreal tall, const QStringList& cells) {
    for (int column = 0; column < kColumns; ++column) {
        const qreal its = kShares[column] * wide;
        painter.drawText(QRectF(left, y, its, tall), Qt::AlignRight | Qt::AlignVCenter, cells[column]);
        left += its;
    }
}

void draw(const RefrigerantCard& card, const QString& name, QPainter& painter, const QRectF& page) {
    const QFont plain = paperFont(8);
    const QFont bold = paperFont(8, true);
    painter.setPen(Qt::black);
    painter.setFont(paperFont(15, true));
    qreal y = write(painter, 0, page.width(), name);
    painter.setFont(plain);
    const qreal line = painter.fontMetrics().height();
    y = write(
        painter, y + line * 0.3, page.width(),
        QObject::tr("%1. Safety group %2. Saturation pressure, gauge against 1.01325 bar; uncertain by "
                    "up to %3 %. Bubble: liquid begins to boil; dew: vapour begins to condense. At rest "
                    "a cylinder with liquid shows the bubble pressure.")
            .arg(qt(card.facts.composition), qt(card.facts.safetyGroup))
            .arg(card.pressureUncertaintyPercent, 0, 'f', 1));
    y += line * 0.6;
    const qreal foot = line * (3.0 + static_cast<double>(card.cautions.size() + card.remarks.size()));
    const auto rows = static_cast<int>(card.rows.size());
    const int each = (rows + kBlocks - 1) / kBlocks;
    const qreal wide = page.width() * (1 - kGap * (kBlocks - 1)) / kBlocks;
    const qreal tall = std::min(line * 1.25, (page.height() - y - foot) / (each + 2));
    const QStringList upper{
        {}, {}, QObject::tr("bubble"), QObject::tr("bubble"), QObject::tr("dew"), QObject::tr("dew")};
    const QStringList lower{QStringLiteral("°F"),  QStringLiteral("°C"),   QStringLiteral("psig"),
                            QStringLiteral("bar"), QStringLiteral("psig"), QStringLiteral("bar")};
    for (int block = 0; block < kBlocks; ++block) {
        const qreal left = block * (wide + page.width() * kGap);
        painter.setFont(bold);
        drawRow(painter, left, y, wide, tall, upper);
        drawRow(painter, left, y + tall, wide, tall, lower);
        painter.setPen(QPen(Qt::black, line * 0.06));
        painter.drawLine(QPointF(left, y + 2 * tall), QPointF(left + wide, y + 2 * tall));
        painter.setFont(plain);
        for (int place = 0; place < each && block * each + place < rows; ++place) {
            const CardRow& row = card.rows[static_cast<std::size_t>(block * each + place)];
            const qreal at = y + tall * (place + 2);
            if (place % 5 == 4) { // a thin rule every fifth row leads the eye
                painter.setPen(QPen(Qt::black, line * 0.04));
                painter.drawLine(QPointF(left, at + tall), QPointF(left + wide, at + tall));
            }
            painter.setPen(Qt::black);
            drawRow(painter, left, at, wide, tall, cellsOf(row));
        }
    }
    y += tall * (each + 2) + line * 0.6;
    for (const std::string& remark : card.remarks) {
        y = write(painter, y, page.width(), qt(remark));
    }
    for (const std::string& caution : card.cautions) {
        y = write(painter, y, page.width(), QObject::tr("Caution: %1.").arg(qt(caution)));
    }
    write(painter, y, page.width(),
          QObject::tr("Equations of state: %1.").arg(qt(card.facts.equationOfState)));
}

} // namespace

bool pressureTablePdf(const RefrigerantCard& card, const QString& name, const QString& path, bool letter) {
    QFile file(path);
    if (!file.open(QIODevice::WriteOnly)) {
        return false;
    }
    {
        QPdfWriter writer(&file);
        writer.setTitle(name);
        writer.setCreator(QStringLiteral("Tarebook"));
        writer.setPageSize(QPageSize(letter ? QPageSize::Letter : QPageSize::A4));
        writer.setPageMargins(QMarginsF(kMarginMm, kMarginMm, kMarginMm, kMarginMm), QPageLayout::Millimeter);
        QPainter painter(&writer);
        const QRect page = writer.pageLayout().paintRectPixels(writer.logicalDpiX());
        draw(card, name, painter, QRectF(0, 0, page.width(), page.height()));
    }
    return file.error() == QFileDevice::NoError;
}

} // namespace tarebook
