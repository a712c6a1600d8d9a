#pragma once

#include <functional>
#include <string>
#include <vector>

#include "app/command.h"

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
/// array of objects; refused rows go to standard error as `FILE:ROW: COLUMN: ...`. Returns the exit code.
int runCalculator(const Calculator& calculator, const std::string& path, const CommandContext& context);

/// A cell for a CSV file: quoted where it must be, and, so that a spreadsheet never runs a text as a formula,
/// with an apostrophe before a leading `=`, `+`, `-`, `@`, tab or carriage return that is not a plain
/// number's.
[[nodiscard]] std::string csvCell(const std::string& text);

} // namespace tarebook
