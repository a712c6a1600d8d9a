#include "ui/paper_table.h"

#include "ui/kit.h"
#include "ui/paper_sheet.h"

namespace tarebook {

QStringList textsOf(const std::vector<std::string>& cells) {
    QStringList texts;
    for (const std::string& cell : cells) {
        texts.append(qt(cell));
    }
    return texts;
}

void drawTable(PaperSheet& sheet, const PaperTable& table, const QVector<qreal>& shares,
               const QSet<int>& numbers) {
    if (table.rows.empty()) {
        return;
    }
    sheet.space(0.7);
    sheet.keep(kHeadingAndRow);
    sheet.text(qt(table.heading), sheet.bold());
    sheet.table(textsOf(table.columns), shares, numbers);
    for (const auto& row : table.rows) {
        sheet.row(textsOf(row));
    }
}

} // namespace tarebook
