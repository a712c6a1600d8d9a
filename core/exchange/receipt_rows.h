#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/exchange/sheet_fields.h"
#include "core/ledger/receipt.h"

namespace tarebook {

/// A line of a reclaimer's receipt, as a sheet has it.
struct ReceiptRow {
    int line = 0;
    std::vector<std::string> original;
    std::optional<ReceiptLine> receipt; // absent where the row is refused
    std::vector<RowProblem> problems;

    [[nodiscard]] RowState state() const { return stateOf(problems); }
};

/// `oil`, `moisture` and `other` are masses that are taken off; `result` is a word of analysisResultWord() or
/// `fail`, which is impure; `exchange` the serial of the empty that was given for it. A serial twice names
/// the other line, and both are refused. Whether the cylinder was in the batch is asked when the receipt is
/// entered. Errors as readRows().
[[nodiscard]] Result<std::vector<ReceiptRow>> readReceiptRows(const Sheet& sheet, const ColumnMap& map);

} // namespace tarebook
