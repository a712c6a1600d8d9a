#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/base/sheet.h"
#include "core/base/text_width.h"
#include "core/exchange/column_map.h"
#include "core/exchange/row_problem.h"

namespace tarebook {

/// Control characters and line breaks (controlIn()), or U+FFFD, which stands where bytes named no character.
[[nodiscard]] bool hasUnprintable(std::string_view text);
/// A row of nothing but white space.
[[nodiscard]] bool isBlankRow(const SheetRow& row);

/// The fields of one row; gathers every problem of it, not only the first. What it was made from must outlive
/// it.
class SheetFields {
public:
    SheetFields(const Sheet& sheet, const SheetRow& row, const ColumnMap& map,
                std::vector<RowProblem>& problems)
        : m_sheet(sheet), m_row(row), m_map(map), m_problems(problems) {}

    /// See cellOf().
    [[nodiscard]] std::string cell(std::string_view field) const {
        return cellOf(m_sheet, m_row, m_map, field);
    }
    /// Notes a problem under the column's name as the person wrote it.
    void refuse(std::string_view field, Error error, bool confirmable = false);
    /// The cell, which must not be blank: `where` says what would be right then. Empty when refused.
    std::string text(std::string_view field, std::size_t mostCharacters, std::string_view where);
    /// The cell, which may be blank.
    std::string note(std::string_view field, std::size_t mostCharacters);

    /// What `parse` makes of the cell; a blank one is refused with `where`.
    template <typename Value, typename Parse>
    std::optional<Value> required(std::string_view field, std::string_view where, Parse parse) {
        const std::string written = cell(field);
        if (written.empty()) {
            refuse(field, Error{"the cell is blank", std::string(where)});
            return std::nullopt;
        }
        return optional<Value>(field, parse);
    }

    /// The same, but a blank cell is nothing.
    template <typename Value, typename Parse>
    std::optional<Value> optional(std::string_view field, Parse parse) {
        const std::string written = cell(field);
        if (written.empty()) {
            return std::nullopt;
        }
        const auto value = parse(written);
        if (!value) {
            refuse(field, value.error());
            return std::nullopt;
        }
        return value.value();
    }

private:
    const Sheet& m_sheet;
    const SheetRow& m_row;
    const ColumnMap& m_map;
    std::vector<RowProblem>& m_problems;
};

/// Makes a Row of every row that is not blank: `read` fills it in unless the sheet itself has a problem with
/// the row. Row needs line, original and problems. Error: a needed column is missing, or there is no row at
/// all.
template <typename Row>
Result<std::vector<Row>> readRows(const Sheet& sheet, const ColumnMap& map,
                                  const std::function<void(SheetFields&, Row&)>& read) {
    std::string missing;
    for (const std::string& name : map.missing()) {
        missing += (missing.empty() ? "" : ", ") + name;
    }
    if (!missing.empty()) {
        return Error{"no column gives the " + missing,
                     "name the columns in the first line, or choose them in the preview"};
    }
    std::vector<Row> rows;
    for (const SheetRow& sheetRow : sheet.rows) {
        if (isBlankRow(sheetRow)) {
            continue;
        }
        Row& row = rows.emplace_back();
        row.line = sheetRow.line;
        row.original = sheetRow.cells;
        if (const SheetProblem* problem = sheet.problemAt(sheetRow.line)) {
            row.problems.push_back(RowProblem{problem->column, problem->error, false});
            continue;
        }
        SheetFields fields(sheet, sheetRow, map, row.problems);
        read(fields, row);
    }
    if (rows.empty()) {
        return Error{"there is no row below the names of the columns", "write the rows below them"};
    }
    return rows;
}

} // namespace tarebook
