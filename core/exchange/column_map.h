#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/sheet.h"
#include "core/base/written_date.h"

namespace tarebook {

/// What a person's sheet lists.
enum class SheetKind { cylinders, people, systems, movements, stocktake, jobs, receipt };

/// How this shop writes what a cell may leave open. Taken where the sheet says nothing, and then told.
struct SheetHabits {
    std::string massUnit = "lb";
    std::string capacityUnit = "lb"; // of water, or l
    DateOrder dateOrder = DateOrder::monthFirst;
};

/// Whether a bare number in a field needs a unit.
enum class FieldMeasure { none, mass, waterCapacity };

/// A field of a kind of sheet; `name` is the column's name in the contract of the command line.
struct SheetField {
    std::string_view name;
    bool required = false;
    FieldMeasure measure = FieldMeasure::none;
};

/// The fields of a kind, in the order of the contract.
[[nodiscard]] const std::vector<SheetField>& fieldsOf(SheetKind kind);

/// Which column of the sheet a field is in.
struct MappedColumn {
    SheetField field;
    int place = -1;              // in the sheet; -1: nowhere
    std::string header;          // as the person wrote it
    std::string unit;            // of bare numbers: `lb`, `kg`, `l`, ...; empty where none is needed
    bool unitFromHeader = false; // otherwise the shop's habit
};

/// How a sheet is read. A person may change it in the preview.
struct ColumnMap {
    SheetKind kind = SheetKind::cylinders;
    std::vector<MappedColumn> columns; // one a field, in the order of fieldsOf()
    std::vector<std::string> remarks;  // what was assumed, for the person to see

    [[nodiscard]] const MappedColumn* find(std::string_view field) const;
    /// Names of the required fields that no column gives.
    [[nodiscard]] std::vector<std::string> missing() const;
    /// Puts a field into another column (-1: into none) and takes the unit from its header.
    void assign(std::string_view field, int place, const Sheet& sheet, const SheetHabits& habits);
};

/// Finds the columns by the contract's names, else by the names that shops give them (`S/N`, `WC (lb)`,
/// `Retest`); letter case, spaces and signs do not matter. A unit in the header counts for the bare numbers
/// below it; where a column has bare numbers and no unit, the shop's habit is taken and a remark says so. A
/// column of two meanings goes to the first field; columns that nothing is known of are named in a remark.
[[nodiscard]] ColumnMap guessColumns(const Sheet& sheet, SheetKind kind, const SheetHabits& habits);

/// The cell of a field, tidied; a bare number gets the column's unit, and in a sheet parted by semicolons a
/// single comma between digits of a measure counts as the decimal mark. Empty where the sheet has no such
/// column.
[[nodiscard]] std::string cellOf(const Sheet& sheet, const SheetRow& row, const ColumnMap& map,
                                 std::string_view field);

} // namespace tarebook
