#include "ui/column_table.h"

#include "ui/kit.h"

#include <QComboBox>
#include <QTableWidget>

#include <utility>

namespace tarebook {

ColumnTable::ColumnTable(const QString& name, QString prefix, QWidget* parent)
    : QObject(parent), m_prefix(std::move(prefix)),
      m_table(kit::table(name, {tr("Field"), tr("In the sheet"), tr("Unit")}, parent)) {
    m_table->setAccessibleName(tr("Columns of the sheet"));
    kit::fitColumns(m_table, 1);
}

void ColumnTable::fill(const ColumnMap& map, const Sheet& sheet) {
    m_table->setRowCount(0);
    for (const MappedColumn& column : map.columns) {
        const int row = m_table->rowCount();
        m_table->insertRow(row);
        const QString field = qt(std::string(column.field.name));
        kit::cell(m_table, row, 0, column.field.required ? tr("%1 (needed)").arg(field) : field);
        auto* box = new QComboBox(m_table);
        box->setObjectName(m_prefix + QLatin1Char(':') + field);
        box->setAccessibleName(tr("Column for %1").arg(field));
        box->addItem(tr("– none –"), -1);
        for (std::size_t place = 0; place < sheet.header.size(); ++place) {
            box->addItem(qt(sheet.header[place]), static_cast<int>(place));
        }
        box->setCurrentIndex(column.place + 1);
        m_table->setCellWidget(row, 1, box);
        kit::cell(m_table, row, 2, qt(column.unit));
        // Queued: the box is made anew, which must not happen within its own signal. The first item is none.
        connect(
            box, &QComboBox::activated, this, [this, field](int item) { emit assigned(field, item - 1); },
            Qt::QueuedConnection);
    }
    kit::fitColumns(m_table, 1);
}

} // namespace tarebook
