#include "ui/evidence_print.h"

#include "ui/kit.h"
#include "ui/paper_columns.h"
#include "ui/paper_sheet.h"

#include <QRegularExpression>

#include <algorithm>

namespace tarebook {
namespace {

constexpr int kHeadShown = 16;   // characters of the digest in the foot
constexpr int kEvidenceType = 7; // points: movements have fourteen columns

/// The name of a column of a sheet, in words.
QString columnWords(const std::string& column) {
    return qt(column).replace(QLatin1Char('_'), QLatin1Char(' '));
}

/// A cell of a table that is made for machines, as a person reads it and as a narrow column can break it:
/// `2026-09-14T08:30:00-05:00` as `2026-09-14 08:30:00 -05:00`, `system:HARBOR/DOCK-1` as `system:
/// HARBOR/DOCK-1`.
QString cellWords(const std::string& cell) {
    static const QRegularExpression kMoment(
        QStringLiteral("^(\\d{4}-\\d\\d-\\d\\d)T(\\d\\d:\\d\\d:\\d\\d)([-+]\\d\\d:\\d\\d|Z)$"));
    static const QRegularExpression kKind(QStringLiteral("^([a-z]+):(?=\\S)"));
    return qt(cell).replace(kMoment, QStringLiteral("\\1 \\2 \\3")).replace(kKind, QStringLiteral("\\1: "));
}

/// Columns that hold nothing but numbers.
QSet<int> numbersOf(const PaperTable& table) {
    static const QRegularExpression kNumber(QStringLiteral("^-?[0-9]+(\\.[0-9]+)?$"));
    QSet<int> numbers;
    for (std::size_t column = 0; column < table.columns.size(); ++column) {
        const bool all = std::all_of(table.rows.begin(), table.rows.end(), [&](const auto& row) {
            return row[column].empty() || kNumber.match(qt(row[column])).hasMatch();
        });
        const bool any = std::any_of(table.rows.begin(), table.rows.end(),
                                     [&](const auto& row) { return !row[column].empty(); });
        if (all && any) {
            numbers.insert(static_cast<int>(column));
        }
    }
    return numbers;
}

void drawEvidenceTable(PaperSheet& sheet, const EvidenceTable& its) {
    sheet.space(0.7);
    sheet.keep(kHeadingAndRow);
    sheet.text(qt(its.table.heading), sheet.bold());
    if (its.table.rows.empty()) {
        sheet.text(QObject::tr("None."), sheet.plain());
        return;
    }
    QStringList titles;
    for (const std::string& column : its.table.columns) {
        titles.append(columnWords(column));
    }
    QVector<QStringList> rows;
    rows.reserve(static_cast<qsizetype>(its.table.rows.size()));
    for (const auto& row : its.table.rows) {
        QStringList cells;
        for (const std::string& cell : row) {
            cells.append(cellWords(cell));
        }
        rows.append(cells);
    }
    sheet.table(titles, columnShares(sheet, titles, rows), numbersOf(its.table));
    for (const QStringList& row : rows) {
        sheet.row(row);
    }
    if (!its.rest.empty()) {
        sheet.text(qt(its.rest), sheet.plain());
    }
}

int drawEvidencePages(const EvidencePaper& paper, QPagedPaintDevice& device, int pages) {
    PaperSheet sheet(device,
                     QObject::tr("%1, books at %2").arg(qt(paper.title), qt(paper.digest).left(kHeadShown)),
                     pages, kEvidenceType);
    sheet.text(qt(paper.title), sheet.title());
    sheet.text(qt(paper.firm), sheet.plain());
    sheet.text(QObject::tr("By the books up to entry %1, head %2. README.txt says how this is checked.")
                   .arg(paper.upTo)
                   .arg(qt(paper.digest)),
               sheet.plain(), 0.7);
    for (const std::string& sentence : paper.sentences) {
        sheet.text(qt(sentence), sheet.plain());
    }
    for (const EvidenceTable& table : paper.tables) {
        drawEvidenceTable(sheet, table);
    }
    return sheet.page();
}

} // namespace

int drawEvidence(const EvidencePaper& paper, QPagedPaintDevice& device) {
    return drawPaper(device,
                     [&](QPagedPaintDevice& on, int pages) { return drawEvidencePages(paper, on, pages); });
}

bool evidencePdf(const EvidencePaper& paper, const QString& path, bool letter) {
    constexpr bool kLandscape = true;
    return paperPdf(
        path, qt(paper.title), letter,
        [&](QPagedPaintDevice& on, int pages) { return drawEvidencePages(paper, on, pages); }, kLandscape);
}

} // namespace tarebook
