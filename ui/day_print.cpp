#include "ui/day_print.h"

#include "core/papers/paper_parts.h"
#include "ui/kit.h"
#include "ui/paper_sheet.h"

namespace tarebook {
namespace {

QStringList cellTexts(const std::vector<std::string>& cells) {
    QStringList texts;
    for (const std::string& cell : cells) {
        texts.append(qt(cell));
    }
    return texts;
}

/// A table without rows is left out.
void drawDayTable(PaperSheet& sheet, const PaperTable& table, const QVector<qreal>& shares,
                  const QSet<int>& numbers) {
    if (table.rows.empty()) {
        return;
    }
    sheet.space(0.7);
    sheet.keep(kHeadingAndRow);
    sheet.text(qt(table.heading), sheet.bold());
    sheet.table(cellTexts(table.columns), shares, numbers);
    for (const auto& row : table.rows) {
        sheet.row(cellTexts(row));
    }
}

int drawDayPages(const DayPaper& paper, QPagedPaintDevice& device, int pages) {
    PaperSheet sheet(device, QObject::tr("Plan of %1, books at %2").arg(qt(paper.day), qt(paper.head)),
                     pages);
    sheet.text(qt(paper.title), sheet.title());
    sheet.text(qt(firmLine(paper.shop, paper.shopAddress)), sheet.plain());
    sheet.text(QObject::tr("Day %1").arg(qt(paper.day)), sheet.bold(), 1);
    sheet.text(qt(paper.summary), sheet.plain());
    for (const PaperTable& table : paper.technicians) {
        drawDayTable(sheet, table, {0.07, 0.11, 0.22, 0.13, 0.1, 0.15, 0.22}, {4, 5});
    }
    drawDayTable(sheet, paper.unserved, {0.17, 0.08, 0.12, 0.22, 0.41}, {});
    if (!paper.findings.empty()) {
        sheet.space(1);
        sheet.text(QObject::tr("To watch"), sheet.title());
    }
    for (const PaperTable& table : paper.findings) {
        drawDayTable(sheet, table, {0.1, 0.4, 0.5}, {});
    }
    sheet.space(1);
    for (const std::string& line : paper.cautions) {
        sheet.text(qt(line), sheet.plain());
    }
    return sheet.page();
}

} // namespace

int drawDay(const DayPaper& paper, QPagedPaintDevice& device) {
    return drawPaper(device,
                     [&](QPagedPaintDevice& on, int pages) { return drawDayPages(paper, on, pages); });
}

bool dayPdf(const DayPaper& paper, const QString& path, bool letter) {
    return paperPdf(path, qt(paper.title), letter,
                    [&](QPagedPaintDevice& on, int pages) { return drawDayPages(paper, on, pages); });
}

} // namespace tarebook
