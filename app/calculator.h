#pragma once

#include <functional>
#include <string>
#include <vector>

#include "app/command.h"
#include "core/base/csv_write.h"

namespace tarebook {

/// What a calculator says of one row: its result cells, or the column that was wrong and why.
struct CalculatorAnswer {
    std::vector<std::string>
        cells;          // as many as the calculator has results; fewer are filled up with empty ones
    std::string column; // of the input, where it was refused
    std::string error;  // empty: answered
};

/// A verb that reads rows and writes the same rows with results behind them.
struct Calculator {
    std::vector<std::string> inputs;  // columns that must be there
    std::vector<std::string> results; // columns added; `error` is added behind them
    /// Cells in the order of `inputs`.
    std::function<CalculatorAnswer(const std::vector<std::string>& cells)> answer;
};

/// Reads `path` (`-`: standard input), answers every row in its order, as CSV or, with context.json, as an
/// array of objects; refused rows go to standard error as `FILE:ROW: COLUMN: ...`, where ROW is the line of
/// the file. A row whose cells do not fit the header is refused by itself. Returns the exit code.
int runCalculator(const Calculator& calculator, const std::string& path, const CommandContext& context);

} // namespace tarebook
