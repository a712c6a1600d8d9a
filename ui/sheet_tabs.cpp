#include "ui/sheet_tabs.h"

#include "core/exchange/importing.h"
#include "ui/column_table.h"
#include "ui/desk.h"

#include <QFile>
#include <QHeaderView>
#include <QTabWidget>
#include <QTableWidget>

namespace tarebook {

SheetTabs::SheetTabs(Desk& desk, SheetKind kind, const QString& prefix, QTabWidget* tabs)
    : QObject(tabs), m_desk(desk), m_kind(kind), m_tabs(tabs),
      m_read(kit::table(prefix + QStringLiteral("Read"),
                        {tr("Line"), tr("Stands"), tr("What is wrong, and what would be right")}, tabs)),
      m_columns(
          new ColumnTable(prefix + QStringLiteral("Columns"), prefix + QStringLiteral("Column"), tabs)) {
    tabs->setDocumentMode(true);
    tabs->setTabBarAutoHide(true); // without a sheet there is nothing to choose
    m_read->setAccessibleName(tr("Rows of the sheet"));
    m_read->verticalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    m_read->hide();
    m_columns->table()->hide();
    connect(m_columns, &ColumnTable::assigned, this, [this](const QString& field, int place) {
        m_map.assign(utf8(field), place, m_sheet, habitsOf(m_desk.shop()));
        m_columns->fill(m_map, m_sheet);
        QWidget* const shown = m_tabs->currentWidget();
        emit assigned();
        m_tabs->setCurrentWidget(shown); // there may be another column to put right
    });
}

Result<bool> SheetTabs::open(const QString& path) {
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly)) {
        return Error{utf8(tr("%1 cannot be read").arg(path)), utf8(tr("choose another file"))};
    }
    auto sheet = readSheet(file.readAll().toStdString());
    if (!sheet) {
        return sheet.error();
    }
    m_sheet = std::move(sheet).value();
    m_map = guessColumns(m_sheet, m_kind, habitsOf(m_desk.shop()));
    m_columns->fill(m_map, m_sheet);
    if (m_tabs->indexOf(m_read) < 0) {
        m_tabs->addTab(m_read, tr("What was r&ead"));
        m_tabs->addTab(m_columns->table(), tr("Co&lumns"));
    }
    return true;
}

void SheetTabs::clear() {
    m_sheet = {};
    m_map = {};
    m_columns->fill(m_map, m_sheet);
    show({});
}

void SheetTabs::show(const std::vector<Row>& rows) {
    m_read->setRowCount(0);
    for (const Row& its : rows) {
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

void SheetTabs::showRead() {
    m_tabs->setCurrentWidget(m_read);
}

void SheetTabs::showColumns() {
    m_tabs->setCurrentWidget(m_columns->table());
}

} // namespace tarebook
