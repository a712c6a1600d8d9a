#include "ui/paper_print.h"

#include "core/papers/paper_parts.h"
#include "ui/kit.h"
#include "ui/paper_columns.h"
#include "ui/paper_sheet.h"
#include "ui/paper_table.h"

namespace tarebook {
namespace {

/// Beginning of every paper of a batch: what it is, which issue, from whom to whom.
void drawHeading(PaperSheet& sheet, const BatchHeading& heading, const QString& from, const QString& to) {
    sheet.text(qt(heading.title), sheet.title());
    sheet.text(qt(issueLine(heading)), sheet.bold(), 1);
    sheet.text(QStringLiteral("%1: %2").arg(from, qt(fromLine(heading))), sheet.plain());
    sheet.text(QStringLiteral("%1: %2").arg(to, qt(toLine(heading))), sheet.plain(), 1);
}

/// A table that is as wide as what it holds asks for; `numbers` are the columns that hold numbers.
void drawRows(PaperSheet& sheet, const std::vector<std::string>& titles,
              const std::vector<std::vector<std::string>>& rows, const QSet<int>& numbers) {
    const QStringList heading = textsOf(titles);
    QVector<QStringList> cells;
    for (const auto& row : rows) {
        cells.append(textsOf(row));
    }
    sheet.table(heading, columnShares(sheet, heading, cells), numbers);
    for (const QStringList& row : cells) {
        sheet.row(row);
    }
}

int draw(const Manifest& manifest, QPagedPaintDevice& device, int pages) {
    PaperSheet sheet(device, qt(footLine(manifest.heading)), pages);
    drawHeading(sheet, manifest.heading, QObject::tr("From"), QObject::tr("To"));
    drawRows(sheet, manifest.columns, manifest.rows, {3, 4, 5});
    sheet.text(textsOf(manifest.totals).join(QStringLiteral(", ")), sheet.bold(), 1);
    for (const auto* lines : {&manifest.shipping, &manifest.placards, &manifest.exchange}) {
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

int draw(const StocktakePaper& paper, QPagedPaintDevice& device, int pages) {
    PaperSheet sheet(
        device, QObject::tr("Stocktake of %1, books at %2").arg(qt(paper.walked), qt(paper.head)), pages);
    sheet.text(qt(paper.title), sheet.title());
    sheet.text(qt(firmLine(paper.shop, paper.shopAddress)), sheet.plain());
    sheet.text(QObject::tr("Walked %1").arg(qt(paper.walked)), sheet.bold(), 1);
    for (const std::string& line : paper.summary) {
        sheet.text(qt(line), sheet.plain());
    }
    drawTable(sheet, paper.weighings, {0.18, 0.2, 0.12, 0.12, 0.13, 0.1, 0.15}, {2, 3, 4, 5});
    drawTable(sheet, paper.causes, {0.13, 0.04, 0.17, 0.33, 0.33}, {});
    drawTable(sheet, paper.absences, {0.15, 0.12, 0.25, 0.48}, {});
    sheet.space(1);
    for (const std::string& line : paper.cautions) {
        sheet.text(qt(line), sheet.plain());
    }
    sheet.space(2);
    sheet.text(QObject::tr("Walked by ____________________________     Seen by ____________________________"),
               sheet.plain());
    return sheet.page();
}

int draw(const ShippingPaper& paper, QPagedPaintDevice& device, int pages) {
    PaperSheet sheet(device, qt(footLine(paper.heading)), pages);
    drawHeading(sheet, paper.heading, QObject::tr("Shipper"), QObject::tr("Consignee"));
    sheet.text(QObject::tr("EMERGENCY TELEPHONE: %1").arg(qt(paper.emergency)), sheet.title(), 0.7);
    const auto rows = rowsOf(paper);
    drawRows(sheet, rows.front(), {rows.begin() + 1, rows.end()}, {3, 4});
    for (const std::string& line : paper.others) {
        sheet.text(qt(line), sheet.plain());
    }
    sheet.text(textsOf(paper.totals).join(QStringLiteral(", ")), sheet.bold(), 1);
    if (!paper.certification.empty()) {
        sheet.text(qt(paper.certification), sheet.bold(), 2);
        sheet.text(QObject::tr("Shipper, signed ____________________________     Date ______________"),
                   sheet.plain());
        sheet.text(qt(paper.certificationBasis), sheet.plain(), 1);
    }
    for (const auto* lines : {&paper.placards, &paper.cautions}) {
        for (const std::string& line : *lines) {
            sheet.text(qt(line), sheet.plain());
        }
    }
    return sheet.page();
}

int draw(const ConsignmentSheet& data, QPagedPaintDevice& device, int pages) {
    PaperSheet sheet(device, qt(footLine(data.heading)), pages);
    drawHeading(sheet, data.heading, QObject::tr("Consignor"), QObject::tr("Consignee"));
    if (!data.late.empty()) {
        sheet.text(qt(data.late), sheet.bold(), 1);
    }
    for (const PaperField& field : data.waste) {
        sheet.text(QStringLiteral("%1: %2").arg(qt(field.label), qt(field.value)), sheet.plain());
    }
    sheet.space(0.7);
    const auto rows = rowsOf(data);
    drawRows(sheet, rows.front(), {rows.begin() + 1, rows.end()}, {4, 5});
    sheet.text(textsOf(data.totals).join(QStringLiteral(", ")), sheet.bold(), 1);
    sheet.text(QObject::tr("To be filled in by hand"), sheet.bold());
    for (const PaperField& blank : data.blanks) {
        sheet.text(QStringLiteral("%1: ____________________________").arg(qt(blank.label)), sheet.plain(),
                   0.2);
        sheet.text(qt(blank.value), sheet.plain(), 0.45);
    }
    sheet.space(1);
    for (const QString& who : {QObject::tr("Consignor"), QObject::tr("Carrier"), QObject::tr("Consignee")}) {
        sheet.text(QObject::tr("%1, signed ____________________________     Date ______________").arg(who),
                   sheet.plain(), 0.8);
    }
    for (const auto* lines : {&data.records, &data.cautions}) {
        for (const std::string& line : *lines) {
            sheet.text(qt(line), sheet.plain());
        }
    }
    return sheet.page();
}

} // namespace

int drawManifest(const Manifest& manifest, QPagedPaintDevice& device) {
    return drawPaper(device, [&](QPagedPaintDevice& on, int pages) { return draw(manifest, on, pages); });
}

bool manifestPdf(const Manifest& manifest, const QString& path, bool letter) {
    return paperPdf(path, qt(manifest.heading.title), letter,
                    [&](QPagedPaintDevice& on, int pages) { return draw(manifest, on, pages); });
}

BatchPaper batchPaperOf(const ShippingPaper& paper) {
    return {QObject::tr("Shipping paper of %1").arg(qt(paper.heading.batch)),
            QStringLiteral("shipping-%1.pdf").arg(qt(paper.heading.batch)), qt(shippingPaperText(paper)),
            [paper](QPagedPaintDevice& on, int pages) { return draw(paper, on, pages); },
            [paper](Shop& shop) { return issueShippingPaper(shop, paper); }};
}

BatchPaper batchPaperOf(const ConsignmentSheet& sheet) {
    return {QObject::tr("Consignment data sheet of %1").arg(qt(sheet.heading.batch)),
            QStringLiteral("consignment-%1.pdf").arg(qt(sheet.heading.batch)), qt(consignmentText(sheet)),
            [sheet](QPagedPaintDevice& on, int pages) { return draw(sheet, on, pages); },
            [sheet](Shop& shop) { return issueConsignmentSheet(shop, sheet); }};
}

int drawStocktake(const StocktakePaper& paper, QPagedPaintDevice& device) {
    return drawPaper(device, [&](QPagedPaintDevice& on, int pages) { return draw(paper, on, pages); });
}

bool stocktakePdf(const StocktakePaper& paper, const QString& path, bool letter) {
    return paperPdf(path, qt(paper.title), letter,
                    [&](QPagedPaintDevice& on, int pages) { return draw(paper, on, pages); });
}

} // namespace tarebook
