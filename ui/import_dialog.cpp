#include "ui/import_dialog.h"

#include "ui/column_table.h"
#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/theme.h"

#include <QApplication>
#include <QBoxLayout>
#include <QComboBox>
#include <QFile>
#include <QFileDialog>
#include <QFileInfo>
#include <QHeaderView>
#include <QLabel>
#include <QProgressBar>
#include <QPushButton>
#include <QSplitter>
#include <QTableWidget>

namespace tarebook {
namespace {

constexpr int kMostShown = 2'000; // rows in the preview; problems come first
enum Column { take, line, state, what };

QString stateWord(RowState state) {
    switch (state) {
    case RowState::accepted:
        return QObject::tr("good");
    case RowState::confirm:
        return QObject::tr("is it so?");
    case RowState::refused:
        return QObject::tr("refused");
    }
    return {};
}

Severity severityOf(RowState state) {
    return state == RowState::refused   ? Severity::refusal
           : state == RowState::confirm ? Severity::caution
                                        : Severity::note;
}

} // namespace

ImportDialog::ImportDialog(Desk& desk, QWidget* parent)
    : QDialog(parent), m_desk(desk), m_kind(new QComboBox(this)),
      m_choose(new QPushButton(tr("&Choose a file…"), this)), m_file(new QLabel(this)),
      m_remarks(kit::hint({}, this)), m_obstacle(new QLabel(this)), m_progress(new QProgressBar(this)),
      m_write(new QPushButton(tr("Write to the books"), this)) {
    setObjectName(QStringLiteral("importDialog"));
    setWindowTitle(tr("Import a spreadsheet"));
    m_kind->setObjectName(QStringLiteral("importKind"));
    m_kind->setAccessibleName(tr("What the sheet lists"));
    m_kind->addItems({tr("cylinders"), tr("people"), tr("systems"), tr("movements")});
    m_columns = new ColumnTable(QStringLiteral("importColumns"), QStringLiteral("importColumn"), this);
    m_rows =
        kit::table(QStringLiteral("importRows"), {QString(), tr("Line"), tr("Stands"), tr("What")}, this);
    m_rows->verticalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    m_obstacle->setObjectName(QStringLiteral("importObstacle"));
    m_obstacle->setWordWrap(true);
    m_progress->hide();
    m_write->setObjectName(QStringLiteral("importWrite"));
    kit::makePrimary(m_write);
    m_choose->setObjectName(QStringLiteral("importChoose"));
    auto* cancel = new QPushButton(tr("Cancel"), this);
    cancel->setObjectName(QStringLiteral("importCancel"));
    auto* top = new QHBoxLayout;
    auto* label = new QLabel(tr("A list of"), this);
    label->setBuddy(m_kind);
    top->addWidget(label);
    top->addWidget(m_kind);
    top->addWidget(m_choose);
    top->addWidget(m_file, 1);
    auto* splitter = new QSplitter(Qt::Horizontal, this);
    splitter->addWidget(m_columns->table());
    splitter->addWidget(m_rows);
    splitter->setStretchFactor(0, 2);
    splitter->setStretchFactor(1, 3);
    splitter->setChildrenCollapsible(false);
    m_columns->table()->setMinimumWidth(fontMetrics().height() * 22);
    auto* bottom = new QHBoxLayout;
    bottom->addWidget(m_obstacle, 1);
    bottom->addWidget(m_progress);
    bottom->addWidget(m_write);
    bottom->addWidget(cancel);
    auto* column = new QVBoxLayout(this);
    column->addLayout(top);
    column->addWidget(m_remarks);
    column->addWidget(splitter, 1);
    column->addWidget(
        kit::hint(tr("Nothing is written before you agree; then all of it or nothing. A refused row names "
                     "what is wrong and what would be right: mend the sheet and read it again, or untick "
                     "the row. Tick a row that looks odd but is so."),
                  this));
    column->addLayout(bottom);
    connect(m_choose, &QPushButton::clicked, this, &ImportDialog::chooseFile);
    connect(m_kind, &QComboBox::currentIndexChanged, this, &ImportDialog::read);
    connect(m_write, &QPushButton::clicked, this, &ImportDialog::write);
    connect(cancel, &QPushButton::clicked, this, &ImportDialog::reject);
    connect(m_columns, &ColumnTable::assigned, this, [this](const QString& field, int place) {
        if (m_import) {
            m_import->assign(utf8(field), place);
            showAll();
        }
    });
    connect(m_rows, &QTableWidget::itemChanged, this, [this](QTableWidgetItem* item) {
        if (!m_import || item->column() != take) {
            return;
        }
        const int number = item->data(Qt::UserRole).toInt();
        const bool yes = item->checkState() == Qt::Checked;
        const auto kind = static_cast<RowState>(item->data(Qt::UserRole + 1).toInt());
        if (kind == RowState::confirm) {
            m_import->confirm(number, yes);
        } else {
            m_import->leaveOut(number, !yes);
        }
        follow();
    });
    kit::fitColumns(m_rows, what);
    const int height = fontMetrics().height();
    resize(height * 64, height * 36);
    follow();
}

void ImportDialog::chooseFile() {
    const QString path = QFileDialog::getOpenFileName(this, tr("Spreadsheet"), {},
                                                      tr("Tables (*.csv *.txt *.tsv);;All files (*)"));
    if (!path.isEmpty()) {
        readFile(path);
    }
}

void ImportDialog::readFile(const QString& path) {
    m_path = path;
    m_file->setText(QFileInfo(path).fileName());
    read();
}

void ImportDialog::read() {
    m_import.reset();
    m_columns->table()->setRowCount(0);
    m_rows->setRowCount(0);
    m_remarks->clear();
    if (m_path.isEmpty()) {
        follow();
        return;
    }
    QFile file(m_path);
    if (!file.open(QIODevice::ReadOnly)) {
        m_obstacle->setText(tr("%1 cannot be read").arg(m_path));
        m_write->setEnabled(false);
        return;
    }
    auto begun = SheetImport::begin(m_desk.shop(), static_cast<SheetKind>(m_kind->currentIndex()),
                                    file.readAll().toStdString());
    if (!begun) {
        m_obstacle->setText(qt(begun.error().text()));
        m_write->setEnabled(false);
        return;
    }
    m_import = std::make_unique<SheetImport>(std::move(begun).value());
    showAll();
}

void ImportDialog::showAll() {
    QStringList remarks;
    for (const std::string& remark : m_import->remarks()) {
        remarks.append(qt(remark));
    }
    for (const std::string& added : m_import->added()) {
        remarks.append(tr("new: %1").arg(qt(added)));
    }
    m_remarks->setText(remarks.join(QStringLiteral("  ·  ")));
    m_columns->fill(m_import->columns(), m_import->sheet());
    showRows();
    follow();
}

void ImportDialog::showRows() {
    const QSignalBlocker quiet(m_rows);
    m_rows->setRowCount(0);
    for (const RowState wanted : {RowState::refused, RowState::confirm, RowState::accepted}) {
        for (const ImportRow& row : m_import->rows()) {
            if (row.state != wanted || m_rows->rowCount() >= kMostShown) {
                continue;
            }
            const int place = m_rows->rowCount();
            m_rows->insertRow(place);
            auto* box = kit::cell(m_rows, place, take, {});
            box->setFlags(box->flags() | Qt::ItemIsUserCheckable);
            box->setData(Qt::UserRole, row.line);
            box->setData(Qt::UserRole + 1, static_cast<int>(row.state));
            const bool ticked = row.state == RowState::confirm ? m_import->confirmed(row.line)
                                                               : !m_import->isLeftOut(row.line);
            box->setCheckState(ticked ? Qt::Checked : Qt::Unchecked);
            kit::cell(m_rows, place, line, QString::number(row.line), true);
            auto* stands = kit::cell(m_rows, place, state, stateWord(row.state));
            stands->setIcon(
                theme::mark(severityOf(row.state), palette(), fontMetrics().height(), devicePixelRatioF()));
            QStringList told;
            for (const RowProblem& problem : row.problems) {
                told.append(tr("%1: %2").arg(qt(problem.column), qt(problem.error.text())));
            }
            if (told.isEmpty()) {
                told.append(qt(row.summary));
            }
            kit::cell(m_rows, place, what, told.join(QLatin1Char('\n')));
        }
    }
    kit::fitColumns(m_rows, what);
    m_rows->resizeRowsToContents();
}

void ImportDialog::follow() {
    if (!m_import) {
        m_write->setEnabled(false);
        if (m_path.isEmpty()) {
            m_obstacle->setText(tr("Choose the file to read."));
        }
        return;
    }
    const QString obstacle = qt(m_import->obstacle());
    m_write->setEnabled(obstacle.isEmpty());
    const auto all = static_cast<qsizetype>(m_import->rows().size());
    const QString hidden =
        all > kMostShown
            ? tr(" Shown are %1 of %2 rows, those with a problem first.").arg(kMostShown).arg(all)
            : QString();
    m_obstacle->setText(
        (obstacle.isEmpty() ? tr("%1 rows can be written.").arg(all) : tr("Not yet: %1").arg(obstacle)) +
        hidden);
}

void ImportDialog::reject() {
    m_stop = true;
    if (!m_writing) {
        QDialog::reject();
    }
}

void ImportDialog::hold(bool writing) {
    m_writing = writing;
    m_progress->setVisible(writing);
    // The window answers meanwhile: what is being written must not be read anew or written twice.
    for (QWidget* part :
         std::initializer_list<QWidget*>{m_kind, m_choose, m_columns->table(), m_rows, m_write}) {
        part->setEnabled(!writing);
    }
}

void ImportDialog::write() {
    if (!m_import || m_writing) {
        return;
    }
    m_stop = false;
    hold(true);
    const Recorded recorded = m_import->write([this](std::int64_t done, std::int64_t total) {
        m_progress->setMaximum(static_cast<int>(total));
        m_progress->setValue(static_cast<int>(done));
        QApplication::processEvents();
        return !m_stop;
    });
    hold(false);
    m_desk.notifyRecorded(recorded);
    if (!recorded.ok()) {
        m_obstacle->setText(kit::told(recorded, tr("Nothing was written")));
        return;
    }
    m_desk.say(tr("%1 entries written from %2").arg(recorded.entries.size()).arg(m_file->text()));
    accept();
}

} // namespace tarebook
