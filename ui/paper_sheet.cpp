#include "ui/paper_sheet.h"

#include "ui/paper_font.h"

#include <QBuffer>
#include <QFile>
#include <QPageLayout>
#include <QPdfWriter>
#include <QRegularExpression>

#include <algorithm>
#include <utility>

namespace tarebook {
namespace {

constexpr qreal kWhiteBehind = 0.5; // a column, in lines
constexpr qreal kWhiteBehindNumber = 0.8;

/// Between words; within them only where one is wider than its column, as a serial without a blank may be: it
/// must not run into the next column.
int wrapFor(const QString& words, const QFontMetricsF& metrics, qreal wide) {
    const QStringList all = words.split(QRegularExpression(QStringLiteral("\\s+")), Qt::SkipEmptyParts);
    const bool broken = std::any_of(
        all.begin(), all.end(), [&](const QString& word) { return metrics.horizontalAdvance(word) > wide; });
    return broken ? Qt::TextWordWrap | Qt::TextWrapAnywhere : Qt::TextWordWrap;
}

} // namespace

PaperSheet::PaperSheet(QPagedPaintDevice& device, QString foot, int pages, int points)
    : m_device(device), m_foot(std::move(foot)), m_pages(pages), m_painter(&device) {
    m_plain = paperFont(points);
    m_bold = paperFont(points, true);
    m_title = paperFont(15, true);
    m_painter.setPen(Qt::black);
    m_area = QRectF(0, 0, m_device.pageLayout().paintRectPixels(m_device.logicalDpiX()).width(),
                    m_device.pageLayout().paintRectPixels(m_device.logicalDpiY()).height());
    m_y = m_area.top();
    drawFoot();
}

void PaperSheet::text(const QString& words, const QFont& font, qreal gap) {
    m_painter.setFont(font);
    const QRectF box =
        m_painter.boundingRect(QRectF(0, 0, m_area.width(), m_area.height()), Qt::TextWordWrap, words);
    need(box.height());
    m_painter.drawText(QRectF(m_area.left(), m_y, m_area.width(), box.height()), Qt::TextWordWrap, words);
    m_y += box.height() + gap * line();
}

void PaperSheet::table(const QStringList& titles, const QVector<qreal>& shares, const QSet<int>& numbers) {
    m_heading = titles;
    m_shares = shares;
    m_numbers = numbers;
    drawRow(m_heading, true);
}

void PaperSheet::row(const QStringList& cells) {
    drawRow(cells, false);
}

void PaperSheet::drawRow(const QStringList& cells, bool head) {
    m_painter.setFont(head ? m_bold : m_plain);
    qreal tall = 0;
    qreal left = 0;
    QVector<QRectF> boxes;
    QVector<int> wraps;
    const QFontMetricsF metrics(m_painter.font(), &m_device);
    for (int column = 0; column < cells.size(); ++column) {
        const qreal wide = m_shares[column] * m_area.width();
        // A number ends where its column does: more white keeps it clear of what begins behind it.
        const qreal white = line() * (m_numbers.contains(column) ? kWhiteBehindNumber : kWhiteBehind);
        const QRectF room(left, 0, wide - white, m_area.height());
        boxes.append(room);
        wraps.append(wrapFor(cells[column], metrics, room.width()));
        tall = std::max(tall, m_painter.boundingRect(room, wraps.back(), cells[column]).height());
        left += wide;
    }
    if (need(tall + line() * 0.6) && !head) {
        drawRow(m_heading, true);
        m_painter.setFont(m_plain);
    }
    for (int column = 0; column < cells.size(); ++column) {
        m_painter.drawText(QRectF(boxes[column].left(), m_y, boxes[column].width(), tall),
                           wraps[column] | (m_numbers.contains(column) ? Qt::AlignRight : Qt::AlignLeft),
                           cells[column]);
    }
    m_y += tall + line() * 0.25;
    m_painter.setPen(QPen(Qt::black, head ? line() * 0.08 : line() * 0.03));
    m_painter.drawLine(QPointF(m_area.left(), m_y), QPointF(m_area.right(), m_y));
    m_painter.setPen(Qt::black);
    m_y += line() * 0.3;
}

qreal PaperSheet::share(const QString& words, const QFont& font) const {
    constexpr qreal kToSpare =
        0.1; // lines: a column that is just wide enough might still be found too narrow
    return (QFontMetricsF(font, &m_device).horizontalAdvance(words) +
            line() * (kWhiteBehindNumber + kToSpare)) /
           m_area.width();
}

qreal PaperSheet::line() const {
    return QFontMetricsF(m_plain, &m_device).height();
}

bool PaperSheet::need(qreal tall) {
    if (m_y + tall <= m_area.bottom() - line() * 2) {
        return false;
    }
    m_device.newPage();
    ++m_page;
    m_y = m_area.top();
    drawFoot();
    return true;
}

void PaperSheet::drawFoot() {
    const QFont before = m_painter.font();
    m_painter.setFont(m_plain);
    const QRectF box(m_area.left(), m_area.bottom() - line() * 1.2, m_area.width(), line() * 1.2);
    m_painter.drawText(box, Qt::AlignLeft, m_foot);
    m_painter.drawText(box, Qt::AlignRight, QObject::tr("page %1 of %2").arg(m_page).arg(m_pages));
    m_painter.setFont(before);
}

int drawPaper(QPagedPaintDevice& device, const std::function<int(QPagedPaintDevice&, int)>& draw) {
    // The number of pages is known only once it has been laid out: first on paper that is thrown away.
    QByteArray thrownAway;
    QBuffer buffer(&thrownAway);
    buffer.open(QIODevice::WriteOnly);
    QPdfWriter counter(&buffer);
    counter.setPageLayout(device.pageLayout());
    counter.setResolution(device.logicalDpiX());
    return draw(device, draw(counter, 0));
}

void setUpPdf(QPdfWriter& writer, const QString& title, bool letter, bool landscape) {
    writer.setTitle(title);
    writer.setCreator(QStringLiteral("Tarebook"));
    writer.setPageSize(QPageSize(letter ? QPageSize::Letter : QPageSize::A4));
    writer.setPageOrientation(landscape ? QPageLayout::Landscape : QPageLayout::Portrait);
    writer.setPageMargins(QMarginsF(15, 15, 15, 15), QPageLayout::Millimeter);
}

bool paperPdf(const QString& path, const QString& title, bool letter,
              const std::function<int(QPagedPaintDevice&, int)>& draw, bool landscape) {
    QFile file(path);
    if (!file.open(QIODevice::WriteOnly)) {
        return false;
    }
    {
        QPdfWriter writer(&file);
        setUpPdf(writer, title, letter, landscape);
        drawPaper(writer, draw);
    }
    return file.error() == QFileDevice::NoError;
}

} // namespace tarebook
