#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/exchange/sheet_fields.h"
#include "core/shop/stocktake.h"

namespace tarebook {

/// A cylinder on the scale, as a sheet has it.
struct StockRow {
    int line = 0;
    std::vector<std::string> original;
    std::optional<StockWeighing> weighing; // absent where the row is refused
    std::vector<RowProblem> problems;

    [[nodiscard]] RowState state() const { return stateOf(problems); }
};

/// A serial twice names the other line, and both are refused: one of the weights is of another cylinder. That
/// a serial is not in the register is no problem here: the stocktake tells. Errors as readRows().
[[nodiscard]] Result<std::vector<StockRow>> readStockRows(const Sheet& sheet, const ColumnMap& map);

} // namespace tarebook
