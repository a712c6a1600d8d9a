#include "ui/receipt_dialog.h"

#include "core/exchange/importing.h"
#include "core/exchange/receipt_rows.h"
#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/questions.h"
#include "ui/receipt_columns.h"

#include <QComboBox>
#include <QFile>
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
    QFile file(path);
    const auto refuse = [&](const QString& why) {
        questions::tell(this, tr("Not taken"), why);
        return false;
    };
    if (!file.open(QIODevice::ReadOnly)) {
        return refuse(tr("%1 cannot be read.").arg(path));
    }
    const auto sheet = readSheet(file.readAll().toStdString());
    if (!sheet) {
        return refuse(qt(sheet.error().text()));
    }
    const ColumnMap map = guessColumns(sheet.value(), SheetKind::receipt, habitsOf(m_desk.shop()));
    const auto rows = readReceiptRows(sheet.value(), map);
    if (!rows) {
        return refuse(qt(rows.error().text()));
    }
    QStringList wrong;
    std::vector<std::pair<int, ReceiptLine>> found;
    for (const ReceiptRow& one : rows.value()) {
        for (const RowProblem& problem : one.problems) {
            wrong << tr("Line %1, %2: %3").arg(one.line).arg(qt(problem.column), qt(problem.error.text()));
        }
        if (!one.receipt) {
            continue;
        }
        const auto its = std::find_if(m_batch.lines.begin(), m_batch.lines.end(), [&](const BatchLine& line) {
            return line.serial == one.receipt->serial;
        });
        if (its == m_batch.lines.end()) {
            wrong << tr("Line %1: %2 was not in this batch").arg(one.line).arg(qt(one.receipt->serial));
            continue;
        }
        found.emplace_back(static_cast<int>(its - m_batch.lines.begin()), *one.receipt);
    }
    if (!wrong.isEmpty()) {
        return refuse(wrong.join(QLatin1Char('\n')));
    }
    for (const auto& [row, line] : found) {
        put(row, line);
    }
    QStringList told{tr("%1 of %2 cylinders filled in").arg(found.size()).arg(m_batch.lines.size())};
    for (const std::string& remark : map.remarks) {
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
