// Of the stocktake: a sheet of weighings, its columns, and each row with what is wrong with it.
#include "ui/stocktake_dialog.h"

#include "core/exchange/stock_rows.h"
#include "ui/desk.h"
#include "ui/sheet_tabs.h"

#include <QFileDialog>
#include <QTabWidget>
#include <QTableWidget>

#include <algorithm>

namespace tarebook {

void StocktakeDialog::chooseSheet() {
    const QString path = QFileDialog::getOpenFileName(this, tr("A sheet of weighings"), {},
                                                      tr("Sheets (*.csv *.txt *.tsv);;All files (*)"));
    if (!path.isEmpty()) {
        (void)takeSheet(path);
    }
}

bool StocktakeDialog::takeSheet(const QString& path) {
    const auto opened = m_sheet->open(path);
    if (!opened) {
        say(qt(opened.error().text()));
        return false;
    }
    m_fromSheet.clear(); // what an earlier sheet gave stays
    return takeRows();
}

bool StocktakeDialog::takeRows() {
    std::erase_if(m_weighings, [this](const StockWeighing& one) { return m_fromSheet.contains(one.serial); });
    m_fromSheet.clear();
    const auto rows = readStockRows(m_sheet->sheet(), m_sheet->columns());
    if (!rows) {
        m_sheet->show({});
        m_sheet->showColumns();
        compare();
        say(qt(rows.error().text()));
        return false;
    }
    std::vector<SheetTabs::Row> read;
    qsizetype refused = 0;
    for (const StockRow& row : rows.value()) {
        read.push_back(SheetTabs::rowOf(row, !row.weighing.has_value()));
        if (!row.weighing) {
            ++refused;
            continue;
        }
        std::erase_if(m_weighings,
                      [&](const StockWeighing& one) { return one.serial == row.weighing->serial; });
        m_weighings.push_back(*row.weighing);
        m_fromSheet.insert(row.weighing->serial);
    }
    m_sheet->show(read);
    if (refused > 0) {
        m_sheet->showRead();
    } else {
        m_tabs->setCurrentWidget(m_table);
    }
    QStringList told{m_fromSheet.size() == 1
                         ? tr("1 weighing taken from the sheet")
                         : tr("%1 weighings taken from the sheet").arg(m_fromSheet.size())};
    if (refused > 0) {
        told << (refused == 1 ? tr("1 row is refused and left out")
                              : tr("%1 rows are refused and left out").arg(refused));
    }
    for (const std::string& remark : m_sheet->columns().remarks) {
        told << qt(remark);
    }
    say(told.join(QStringLiteral("; ")));
    compare(); // says what is wrong with them all
    return !m_fromSheet.empty() && m_report.has_value();
}

} // namespace tarebook
