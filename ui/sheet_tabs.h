#pragma once

#include <QObject>
#include <QStringList>

#include <vector>

#include "core/base/sheet.h"
#include "core/exchange/column_map.h"
#include "core/exchange/row_problem.h"
#include "ui/kit.h"

class QTabWidget;
class QTableWidget;

namespace tarebook {

class ColumnTable;
class Desk;

/// A person's sheet beside the table that it fills, in two more tabs once it is opened: each row with what is
/// wrong with it, and the columns, to be put right.
class SheetTabs : public QObject {
    Q_OBJECT
public:
    /// A row of the sheet and how it stands.
    struct Row {
        int line = 0;
        bool refused = false;
        QStringList wrong;
        QString text;
    };
    /// The tables are called `PREFIXRead` and `PREFIXColumns`, the boxes of the columns `PREFIXColumn:FIELD`.
    SheetTabs(Desk& desk, SheetKind kind, const QString& prefix, QTabWidget* tabs);
    /// Reads the file and guesses its columns. Error: it cannot be read, or has no table.
    [[nodiscard]] Result<bool> open(const QString& path);
    /// Shows no sheet any more.
    void clear();
    [[nodiscard]] const Sheet& sheet() const { return m_sheet; }
    [[nodiscard]] const ColumnMap& columns() const { return m_map; }
    void show(const std::vector<Row>& rows);
    void showRead();
    void showColumns();

    /// What the reader of the rows found.
    template <typename SheetRowRead> [[nodiscard]] static Row rowOf(const SheetRowRead& row, bool refused) {
        Row its;
        its.line = row.line;
        its.refused = refused;
        for (const RowProblem& problem : row.problems) {
            its.wrong << tr("%1: %2").arg(qt(problem.column), qt(problem.error.text()));
        }
        QStringList cells;
        for (const std::string& cell : row.original) {
            cells << qt(cell);
        }
        its.text = cells.join(QStringLiteral(" · "));
        return its;
    }

signals:
    /// The person put a field into another column: the rows are to be read again.
    void assigned();

private:
    Desk& m_desk;
    SheetKind m_kind;
    QTabWidget* m_tabs;
    QTableWidget* m_read;
    ColumnTable* m_columns;
    Sheet m_sheet;
    ColumnMap m_map;
};

} // namespace tarebook
