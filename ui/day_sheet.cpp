// Of the plan of a day: the sheet of its jobs, its columns, and each row with what is wrong with it.
#include "ui/day_dialog.h"

#include "core/exchange/importing.h"
#include "core/exchange/job_rows.h"
#include "ui/column_table.h"
#include "ui/desk.h"
#include "ui/kit.h"

#include <QFile>
#include <QFileDialog>
#include <QFileInfo>
#include <QLabel>
#include <QTabWidget>
#include <QTableWidget>

namespace tarebook {

void DayDialog::chooseSheet() {
    const QString path = QFileDialog::getOpenFileName(this, tr("The jobs of the day"), {},
                                                      tr("Sheets (*.csv *.txt *.tsv);;All files (*)"));
    if (!path.isEmpty()) {
        (void)takeSheet(path);
    }
}

bool DayDialog::takeSheet(const QString& path) {
    m_rows.clear();
    m_jobs.clear();
    m_handedOut.clear();
    m_sheetRead.reset();
    m_columns->fill({}, {});
    m_file->setText(QFileInfo(path).fileName());
    showRead();
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly)) {
        return cannot(tr("%1 cannot be read.").arg(path));
    }
    auto sheet = readSheet(file.readAll().toStdString());
    if (!sheet) {
        return cannot(qt(sheet.error().text()));
    }
    m_sheetRead = std::move(sheet).value();
    m_map = guessColumns(*m_sheetRead, SheetKind::jobs, habitsOf(m_desk.shop()));
    QStringList told{m_file->text()};
    for (const std::string& remark : m_map.remarks) {
        told << qt(remark);
    }
    m_file->setText(told.join(QStringLiteral("; ")));
    return takeRows();
}

void DayDialog::assignColumn(const QString& field, int place) {
    if (m_sheetRead) {
        m_map.assign(utf8(field), place, *m_sheetRead, habitsOf(m_desk.shop()));
        QWidget* const shown = m_tabs->currentWidget();
        (void)takeRows();
        m_tabs->setCurrentWidget(shown); // there may be another column to put right
    }
}

bool DayDialog::takeRows() {
    m_rows.clear();
    m_jobs.clear();
    m_columns->fill(m_map, *m_sheetRead);
    const auto rows = readJobRows(*m_sheetRead, m_map);
    if (!rows) {
        showRead();
        m_tabs->setCurrentWidget(m_columns->table());
        return cannot(qt(rows.error().text()));
    }
    for (const JobRow& row : rows.value()) {
        RowRead& read = m_rows.emplace_back();
        read.line = row.line;
        for (const RowProblem& problem : row.problems) {
            read.wrong << tr("%1: %2").arg(qt(problem.column), qt(problem.error.text()));
        }
        QStringList cells;
        for (const std::string& cell : row.original) {
            cells << qt(cell);
        }
        read.text = cells.join(QStringLiteral(" · "));
        read.refused = !row.job.has_value();
        if (row.job) {
            m_jobs.push_back(*row.job);
        }
    }
    showRead();
    if (m_jobs.empty()) {
        m_tabs->setCurrentWidget(m_read);
        return cannot(tr("No row can be read: mend the rows that are named, or say which column is which."));
    }
    return plan();
}

void DayDialog::showRead() {
    m_read->setRowCount(0);
    for (const RowRead& its : m_rows) {
        const int row = m_read->rowCount();
        m_read->insertRow(row);
        kit::cell(m_read, row, 0, QString::number(its.line), true);
        kit::cell(m_read, row, 1, its.refused ? tr("▲ refused") : tr("✓ read"));
        kit::cell(m_read, row, 2,
                  its.wrong.isEmpty() ? its.text
                                      : its.wrong.join(QLatin1Char('\n')) + QLatin1Char('\n') + its.text);
    }
    kit::fitColumns(m_read, 2);
    m_read->resizeRowsToContents();
}

} // namespace tarebook
