#include "ui/paper_columns.h"

#include "ui/paper_sheet.h"

#include <QRegularExpression>

#include <algorithm>
#include <numeric>

namespace tarebook {
namespace {

constexpr qsizetype kWhole = 11; // characters: `1,129.5 lb` and its like stay in one line

} // namespace

QVector<qreal> columnShares(const PaperSheet& sheet, const QStringList& titles,
                            const QVector<QStringList>& rows) {
    static const QRegularExpression kBlank(QStringLiteral("\\s+"));
    QVector<qreal> words(titles.size(), 0);
    QVector<qreal> cells = words;
    const auto take = [&](qsizetype column, const QString& cell, const QFont& font) {
        const qreal whole = sheet.share(cell, font);
        cells[column] = std::max(cells[column], whole);
        if (cell.size() <= kWhole) {
            words[column] = std::max(words[column], whole);
            return;
        }
        for (const QString& word : cell.split(kBlank)) {
            words[column] = std::max(words[column], sheet.share(word, font));
        }
    };
    for (qsizetype column = 0; column < titles.size(); ++column) {
        take(column, titles[column], sheet.bold());
        for (const QStringList& row : rows) {
            take(column, row[column], sheet.plain());
        }
    }
    const qreal least = std::accumulate(words.begin(), words.end(), 0.0);
    const qreal most = std::accumulate(cells.begin(), cells.end(), 0.0);
    if (least >= 1) {
        std::transform(words.begin(), words.end(), words.begin(), [&](qreal word) { return word / least; });
        return words;
    }
    const qreal part = (1 - least) / std::max(most - least, 1e-9);
    for (qsizetype column = 0; column < words.size(); ++column) {
        words[column] += (cells[column] - words[column]) * std::min(part, 1.0);
    }
    return words;
}

} // namespace tarebook
