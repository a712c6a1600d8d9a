#pragma once

#include <functional>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "core/base/date.h"
#include "core/base/result.h"
#include "core/base/sheet.h"
#include "core/cylinder/nameplate.h"
#include "core/exchange/column_map.h"
#include "core/exchange/row_problem.h"
#include "core/refrigerant/catalogue.h"

namespace tarebook {

/// What is known when a sheet of cylinders is read.
struct CylinderRowsContext {
    std::set<std::string, std::less<>> knownSerials; // already in the shop
    Date today = Date::fromDayNumber(0);             // nothing is made or tested after it
    DateOrder dateOrder = DateOrder::monthFirst;
    const Catalogue* catalogue = nullptr; // checks the refrigerants where given
};

/// A row of the sheet, read or refused.
struct CylinderRow {
    int line = 0; // of the file
    std::vector<std::string> original;
    std::optional<Nameplate> nameplate; // absent where the row is refused
    std::vector<RowProblem> problems;
    bool evacuated = false; // a clean empty when the books begin

    [[nodiscard]] RowState state() const { return stateOf(problems); }
};

/// Reads every row by the map; rows of blank cells are passed over. A row with a problem that only a person
/// can settle (a tare unusual for its capacity, a serial that differs from another in letter case only) keeps
/// its nameplate and waits for a yes; every other problem refuses the row. Error: a needed column is missing,
/// or there is no row at all.
[[nodiscard]] Result<std::vector<CylinderRow>> readCylinderRows(const Sheet& sheet, const ColumnMap& map,
                                                                const CylinderRowsContext& context);

} // namespace tarebook
