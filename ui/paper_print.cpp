#include "ui/paper_print.h"

#include "ui/kit.h"

#include <QBuffer>
#include <QFile>
#include <QPageLayout>
#include <QPainter>
#include <QPdfWriter>

#include <algorithm>

namespace tarebook {
namespace {

// A serial without a blank must not run into the next column.
constexpr int kWrap = Qt::TextWordWrap | Qt::TextWrapAnywhere;

/// Lays lines and rows down the pages of a device; counts pages when it has no painter.
class Sheet {
public:
    Sheet(QPagedPaintDevice& device, const Manifest& manifest, int pages)
        : m_device(device), m_manifest(manifest), m_pages(pages), m_painter(&device) {
        m_plain = QFont(QStringLiteral("Sans"), 9);
        m_bold = m_plain;
        m_bold.setBold(true);
        m_title = QFont(QStringLiteral("Sans"), 15, QFont::Bold);
        m_painter.setPen(Qt::black);
        m_area = QRectF(0, 0, m_device.pageLayout().paintRectPixels(m_device.logicalDpiX()).width(),
                        m_device.pageLayout().paintRectPixels(m_device.logicalDpiY()).height());
        m_y = m_area.top();
        foot();
    }

    void text(const QString& words, const QFont& font, qreal gap = 0.3) {
        m_painter.setFont(font);
        const QRectF box =
            m_painter.boundingRect(QRectF(0, 0, m_area.width(), m_area.height()), Qt::TextWordWrap, words);
        need(box.height());
        m_painter.drawText(QRectF(m_area.left(), m_y, m_area.width(), box.height()), Qt::TextWordWrap, words);
        m_y += box.height() + gap * line();
    }
    void space(qreal lines) { m_y += lines * line(); }

    void row(const QStringList& cells, const QVector<qreal>& shares, bool head) {
        m_painter.setFont(head ? m_bold : m_plain);
        qreal tall = 0;
        qreal left = 0;
        QVector<QRectF> boxes;
        for (int column = 0; column < cells.size(); ++column) {
            const qreal wide = shares[column] * m_area.width();
            const QRectF room(left, 0, wide - line() * 0.5, m_area.height());
            boxes.append(room);
            tall = std::max(tall, m_painter.boundingRect(room, kWrap, cells[column]).height());
            left += wide;
        }
        if (need(tall + line() * 0.6) && !head) {
            row(m_heading, shares, true);
            m_painter.setFont(m_plain);
        }
        if (head) {
            m_heading = cells;
        }
        for (int column = 0; column < cells.size(); ++column) {
            const bool number = column >= 3 && column <= 5;
            m_painter.drawText(QRectF(boxes[column].left(), m_y, boxes[column].width(), tall),
                               kWrap | (number ? Qt::AlignRight : Qt::AlignLeft), cells[column]);
        }
        m_y += tall + line() * 0.25;
        m_painter.setPen(QPen(Qt::black, head ? line() * 0.08 : line() * 0.03));
        m_painter.drawLine(QPointF(m_area.left(), m_y), QPointF(m_area.right(), m_y));
        m_painter.setPen(Qt::black);
        m_y += line() * 0.3;
    }

    [[nodiscard]] int page() const { return m_page; }
    [[nodiscard]] const QFont& plain() const { return m_plain; }
    [[nodiscard]] const QFont& bold() const { return m_bold; }
    [[nodiscard]] const QFont& title() const { return m_title; }

private:
    [[nodiscard]] qreal line() const { return QFontMetricsF(m_plain, &m_device).height(); }

    /// Goes on to a new page where there is no room; says whether it did.
    bool need(qreal tall) {
        if (m_y + tall <= m_area.bottom() - line() * 2) {
            return false;
        }
        m_device.newPage();
        ++m_page;
        m_y = m_area.top();
        foot();
        return true;
    }
    void foot() {
        const QFont before = m_painter.font();
        m_painter.setFont(m_plain);
        const QRectF box(m_area.left(), m_area.bottom() - line() * 1.2, m_area.width(), line() * 1.2);
        m_painter.drawText(
            box, Qt::AlignLeft,
            QObject::tr("Batch %1, books at %2").arg(qt(m_manifest.number), qt(m_manifest.head)));
        m_painter.drawText(box, Qt::AlignRight, QObject::tr("page %1 of %2").arg(m_page).arg(m_pages));
        m_painter.setFont(before);
    }

    QPagedPaintDevice& m_device;
    const Manifest& m_manifest;
    int m_pages;
    QPainter m_painter;
    QFont m_plain;
    QFont m_bold;
    QFont m_title;
    QStringList m_heading; // of the table, again on every page
    QRectF m_area;
    qreal m_y = 0;
    int m_page = 1;
};

int draw(const Manifest& manifest, QPagedPaintDevice& device, int pages) {
    Sheet sheet(device, manifest, pages);
    sheet.text(qt(manifest.title), sheet.title());
    sheet.text(QObject::tr("Batch %1, issued %2").arg(qt(manifest.number), qt(manifest.issued)), sheet.bold(),
               1);
    sheet.text(QObject::tr("From: %1, %2").arg(qt(manifest.shop), qt(manifest.shopAddress)), sheet.plain());
    sheet.text(QObject::tr("To: %1, %2 %3")
                   .arg(qt(manifest.reclaimer), qt(manifest.reclaimerAddress), qt(manifest.reclaimerNumber)),
               sheet.plain(), 1);
    const QVector<qreal> shares = {0.1, 0.12, 0.27, 0.1, 0.09, 0.09, 0.12, 0.11};
    QStringList head;
    for (const std::string& column : manifest.columns) {
        head.append(qt(column));
    }
    sheet.row(head, shares, true);
    for (const auto& row : manifest.rows) {
        QStringList cells;
        for (const std::string& cell : row) {
            cells.append(qt(cell));
        }
        sheet.row(cells, shares, false);
    }
    QStringList totals;
    for (const std::string& total : manifest.totals) {
        totals.append(qt(total));
    }
    sheet.text(totals.join(QStringLiteral(", ")), sheet.bold(), 1);
    for (const auto* lines : {&manifest.shipping, &manifest.placards}) {
        for (const std::string& line : *lines) {
            sheet.text(qt(line), sheet.plain());
        }
    }
    sheet.space(1);
    for (const std::string& line : manifest.cautions) {
        sheet.text(qt(line), sheet.plain());
    }
    sheet.space(2);
    sheet.text(
        QObject::tr("Handed over ____________________________     Received ____________________________"),
        sheet.plain());
    return sheet.page();
}

} // namespace

int drawManifest(const Manifest& manifest, QPagedPaintDevice& device) {
    // The number of pages is known only once it has been laid out: first on paper that is thrown away.
    QByteArray thrownAway;
    QBuffer buffer(&thrownAway);
    buffer.open(QIODevice::WriteOnly);
    QPdfWriter counter(&buffer);
    counter.setPageLayout(device.pageLayout());
    counter.setResolution(device.logicalDpiX());
    const int pages = draw(manifest, counter, 0);
    return draw(manifest, device, pages);
}

bool manifestPdf(const Manifest& manifest, const QString& path, bool letter) {
    QFile file(path);
    if (!file.open(QIODevice::WriteOnly)) {
        return false;
    }
    {
        QPdfWriter writer(&file);
        writer.setTitle(qt(manifest.title));
        writer.setCreator(QStringLiteral("Tarebook"));
        writer.setPageSize(QPageSize(letter ? QPageSize::Letter : QPageSize::A4));
        writer.setPageMargins(QMarginsF(15, 15, 15, 15), QPageLayout::Millimeter);
        drawManifest(manifest, writer);
    }
    return file.error() == QFileDevice::NoError;
}

} // namespace tarebook
