// Of the plan of a day: the sheet of its jobs.
#include "ui/day_dialog.h"

#include "core/exchange/job_rows.h"
#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/sheet_tabs.h"

#include <QFileDialog>
#include <QFileInfo>
#include <QLabel>

namespace tarebook {

void DayDialog::chooseSheet() {
    const QString path = QFileDialog::getOpenFileName(this, tr("The jobs of the day"), {},
                                                      tr("Sheets (*.csv *.txt *.tsv);;All files (*)"));
    if (!path.isEmpty()) {
        (void)takeSheet(path);
    }
}

bool DayDialog::takeSheet(const QString& path) {
    m_jobs.clear();
    m_refused = 0;
    m_handedOut.clear();
    m_jobSheet->clear();
    m_file->setText(QFileInfo(path).fileName());
    const auto opened = m_jobSheet->open(path);
    if (!opened) {
        return cannot(qt(opened.error().text()));
    }
    QStringList told{m_file->text()};
    for (const std::string& remark : m_jobSheet->columns().remarks) {
        told << qt(remark);
    }
    m_file->setText(told.join(QStringLiteral("; ")));
    return takeRows();
}

bool DayDialog::takeRows() {
    m_jobs.clear();
    m_refused = 0;
    const auto rows = readJobRows(m_jobSheet->sheet(), m_jobSheet->columns());
    if (!rows) {
        m_jobSheet->show({});
        m_jobSheet->showColumns();
        return cannot(qt(rows.error().text()));
    }
    std::vector<SheetTabs::Row> read;
    read.reserve(rows.value().size());
    for (const JobRow& row : rows.value()) {
        read.push_back(SheetTabs::rowOf(row, !row.job.has_value()));
        if (row.job) {
            m_jobs.push_back(*row.job);
        } else {
            ++m_refused;
        }
    }
    m_jobSheet->show(read);
    if (m_jobs.empty()) {
        m_jobSheet->showRead();
        return cannot(tr("No row can be read: mend the rows that are named, or say which column is which."));
    }
    return plan();
}

} // namespace tarebook
