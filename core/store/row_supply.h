#pragma once

#include <sqlite3.h>

#include "core/store/database.h"

namespace tarebook {

/// Rows that wait in memory, given once from the first to the last.
class RowSupply {
public:
    RowSupply() = default;
    RowSupply(const RowSupply&) = delete;
    RowSupply& operator=(const RowSupply&) = delete;
    virtual ~RowSupply() = default;

    /// Goes to the next row, at first to the first; false behind the last. Throws nothing.
    virtual bool next() = 0;
    /// Gives a value of this row by one of the functions `sqlite3_result_...`. Throws nothing.
    virtual void give(sqlite3_context* context, int column) const = 0;
};

/// Inserts the rows by one statement: SQLite goes on from where the last row went in, and neither starts nor
/// ends a statement for each. `columns` are those of the table that the supply gives, in its order, separated
/// by commas. When it fails in the middle, the rows before stay: for a transaction that is then rolled back.
/// Throws SqlFailure.
void insertRows(Database& database, const char* table, const char* columns, RowSupply& supply);

} // namespace tarebook
