#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/exchange/sheet_fields.h"
#include "core/shop/day_plan.h"

namespace tarebook {

/// A job of the day, as a sheet has it.
struct JobRow {
    int line = 0;
    std::vector<std::string> original;
    std::optional<DayJob> job; // absent where the row is refused
    std::vector<RowProblem> problems;

    [[nodiscard]] RowState state() const { return stateOf(problems); }
};

/// `direction` is recover or charge; `method` as readMethod() has it, only to recover, as `machine` and
/// `burn_out` are; `hour` as `7`, `07:30` or `7.30`. A row names a system, or a refrigerant; whether what it
/// names is known is the plan's to say. Errors as readRows().
[[nodiscard]] Result<std::vector<JobRow>> readJobRows(const Sheet& sheet, const ColumnMap& map);

/// Minutes since midnight of an hour of the day as people write it: `7`, `07:30`, `7.30`. Error: none of it.
[[nodiscard]] Result<int> readHour(std::string_view text);

} // namespace tarebook
