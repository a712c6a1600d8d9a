#include "ui/day_print.h"

#include "core/papers/paper_parts.h"
#include "ui/kit.h"
#include "ui/paper_sheet.h"
#include "ui/paper_table.h"

namespace tarebook {
namespace {

int drawDayPages(const DayPaper& paper, QPagedPaintDevice& device, int pages) {
    PaperSheet sheet(device, QObject::tr("Plan of %1, books at %2").arg(qt(paper.day), qt(paper.head)),
                     pages);
    sheet.text(qt(paper.title), sheet.title());
    sheet.text(qt(firmLine(paper.shop, paper.shopAddress)), sheet.plain());
    sheet.text(QObject::tr("Day %1").arg(qt(paper.day)), sheet.bold(), 1);
    sheet.text(qt(paper.summary), sheet.plain());
    for (const PaperTable& table : paper.technicians) {
        drawTable(sheet, table, {0.07, 0.11, 0.22, 0.13, 0.1, 0.15, 0.22}, {4, 5});
    }
    drawTable(sheet, paper.unserved, {0.17, 0.08, 0.12, 0.22, 0.41}, {});
    if (!paper.findings.empty()) {
        sheet.space(1);
        sheet.text(QObject::tr("To watch"), sheet.title());
    }
    for (const PaperTable& table : paper.findings) {
        drawTable(sheet, table, {0.1, 0.4, 0.5}, {});
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
