#include "ui/receipt_dialog.h"

#include "core/exchange/receipt_rows.h"
#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/questions.h"
#include "ui/receipt_columns.h"
#include "ui/sheet_tabs.h"

#include <QComboBox>
#include <QFileDialog>
#include <QLineEdit>
#include <QTableWidget>

namespace tarebook {

using namespace receipt;

namespace {

/// To the milligram: what is put into a field is read back from it.
QString exactly(Mass mass) {
    return qt(mass.kilogramsText());
}

} // namespace

void ReceiptDialog::chooseSheet() {
    const QString path = QFileDialog::getOpenFileName(this, tr("The reclaimer's sheet"), {},
                                                      tr("Sheets (*.csv *.txt *.tsv);;All files (*)"));
    if (!path.isEmpty()) {
        (void)takeSheet(path);
    }
}

bool ReceiptDialog::takeSheet(const QString& path) {
    const auto opened = m_sheet->open(path);
    if (!opened) {
        questions::tell(this, tr("Not taken"), qt(opened.error().text()));
        return false;
    }
    return takeRows();
}

bool ReceiptDialog::takeRows() {
    const Display display = m_desk.shop().display();
    for (const int row : m_fromSheet) { // by the columns as they were
        put(row, {});
        field(row, gross)->clear();
        field(row, tare)->setText(qt(display.mass(m_batch.lines[static_cast<std::size_t>(row)].tare)));
    }
    m_fromSheet.clear();
    const auto refuse = [this](const QString& why) {
        questions::tell(this, tr("Not taken"), why);
        return false;
    };
    const auto rows = readReceiptRows(m_sheet->sheet(), m_sheet->columns());
    if (!rows) {
        m_sheet->show({});
        m_sheet->showColumns();
        return refuse(qt(rows.error().text()));
    }
    QStringList wrong;
    std::vector<SheetTabs::Row> read;
    std::vector<std::pair<int, ReceiptLine>> found;
    for (const ReceiptRow& one : rows.value()) {
        SheetTabs::Row& shown = read.emplace_back(SheetTabs::rowOf(one, !one.receipt.has_value()));
        const auto its = std::find_if(m_batch.lines.begin(), m_batch.lines.end(), [&](const BatchLine& line) {
            return one.receipt && line.serial == one.receipt->serial;
        });
        if (one.receipt && its == m_batch.lines.end()) {
            shown.refused = true;
            shown.wrong << tr("%1 was not in this batch").arg(qt(one.receipt->serial));
        } else if (one.receipt) {
            found.emplace_back(static_cast<int>(its - m_batch.lines.begin()), *one.receipt);
        }
        if (!shown.wrong.isEmpty()) {
            wrong << tr("Line %1: %2").arg(one.line).arg(shown.wrong.join(QStringLiteral("; ")));
        }
    }
    m_sheet->show(read);
    if (!wrong.isEmpty()) {
        m_sheet->showRead();
        return refuse(wrong.join(QLatin1Char('\n')));
    }
    for (const auto& [row, line] : found) {
        put(row, line);
        m_fromSheet.insert(row);
    }
    QStringList told{tr("%1 of %2 cylinders filled in").arg(found.size()).arg(m_batch.lines.size())};
    for (const std::string& remark : m_sheet->columns().remarks) {
        told << qt(remark);
    }
    m_desk.say(told.join(QStringLiteral("; ")));
    return true;
}

void ReceiptDialog::put(int row, const ReceiptLine& line) {
    field(row, gross)->setText(exactly(line.gross));
    field(row, tare)->setText(exactly(line.tare));
    field(row, analysis)->setText(qt(line.analysis));
    field(row, certificate)->setText(qt(line.certificate));
    field(row, given)->setText(qt(line.exchange));
    for (const auto& [column, what] :
         {std::pair{oil, "oil"}, std::pair{moisture, "moisture"}, std::pair{other, "other"}}) {
        const auto off = std::find_if(line.deductions.begin(), line.deductions.end(),
                                      [what = what](const Deduction& one) { return one.what == what; });
        field(row, column)->setText(off == line.deductions.end() ? QString() : exactly(off->mass));
    }
    auto* box = qobject_cast<QComboBox*>(m_table->cellWidget(row, outcome));
    box->setCurrentIndex(box->findData(static_cast<int>(line.result)));
}

} // namespace tarebook
