#pragma once

#include <QObject>

#include "core/exchange/column_map.h"

class QTableWidget;

namespace tarebook {

/// Which column of a person's sheet is which field, to be read and put right: a table with a row for each
/// field.
class ColumnTable : public QObject {
    Q_OBJECT
public:
    /// The table is called NAME, its boxes `PREFIX:FIELD`.
    ColumnTable(const QString& name, QString prefix, QWidget* parent);
    [[nodiscard]] QTableWidget* table() const { return m_table; }
    void fill(const ColumnMap& map, const Sheet& sheet);

signals:
    /// The person put a field into another column; -1 is none. It comes when the box is done with it, so that
    /// the table may be filled anew.
    void assigned(const QString& field, int place);

private:
    QString m_prefix;
    QTableWidget* m_table;
};

} // namespace tarebook
