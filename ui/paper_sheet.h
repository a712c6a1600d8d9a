#pragma once

#include <QFont>
#include <QPainter>
#include <QRectF>
#include <QSet>
#include <QStringList>
#include <QVector>

#include <functional>

class QPagedPaintDevice;
class QPdfWriter;

namespace tarebook {

inline constexpr qreal kHeadingAndRow = 7; // lines: a heading, the titles of the columns and a row

/// Lays lines and rows down the pages of a device, black on white; each page has a foot with its number.
class PaperSheet {
public:
    /// `foot` stands at the bottom left of every page; `pages` is how many there will be; `points` is the
    /// size of its type.
    PaperSheet(QPagedPaintDevice& device, QString foot, int pages, int points = 9);

    void text(const QString& words, const QFont& font, qreal gap = 0.3);
    void space(qreal lines) { m_y += lines * line(); }
    /// What follows begins on a new page where fewer lines are left on this one: a heading stays with its
    /// table.
    void keep(qreal lines) { need(lines * line()); }
    /// The columns of the table that follows: their shares of the width, their titles, which stand again on
    /// every page, and which of them hold numbers.
    void table(const QStringList& titles, const QVector<qreal>& shares, const QSet<int>& numbers);
    void row(const QStringList& cells);
    /// How wide text of that font is, as a share of the page; with the white behind a column.
    [[nodiscard]] qreal share(const QString& words, const QFont& font) const;

    [[nodiscard]] int page() const { return m_page; }
    [[nodiscard]] const QFont& plain() const { return m_plain; }
    [[nodiscard]] const QFont& bold() const { return m_bold; }
    [[nodiscard]] const QFont& title() const { return m_title; }

private:
    [[nodiscard]] qreal line() const;
    void drawRow(const QStringList& cells, bool head);
    /// Goes on to a new page where there is no room; says whether it did.
    bool need(qreal tall);
    void drawFoot();

    QPagedPaintDevice& m_device;
    QString m_foot;
    int m_pages;
    QPainter m_painter;
    QFont m_plain;
    QFont m_bold;
    QFont m_title;
    QStringList m_heading;
    QVector<qreal> m_shares;
    QSet<int> m_numbers;
    QRectF m_area;
    qreal m_y = 0;
    int m_page = 1;
};

/// Draws a paper twice: first where nobody sees it, to learn how many pages it has. `draw` is told the device
/// and the number of pages, and returns it. Number of pages.
int drawPaper(QPagedPaintDevice& device, const std::function<int(QPagedPaintDevice&, int)>& draw);
/// Title, size and margins of a paper that becomes a PDF.
void setUpPdf(QPdfWriter& writer, const QString& title, bool letter, bool landscape = false);
/// Writes a paper as a PDF (A4, or letter where the shop counts in pounds). False when the file cannot be
/// written.
[[nodiscard]] bool paperPdf(const QString& path, const QString& title, bool letter,
                            const std::function<int(QPagedPaintDevice&, int)>& draw, bool landscape = false);

} // namespace tarebook
