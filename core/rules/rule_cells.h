#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/quantity/mass.h"
#include "core/rules/rulebook.h"

namespace tarebook {

/// The number in a cell; nothing where the cell is empty. Error: other text, names the cell.
[[nodiscard]] Result<std::optional<double>> numberIn(const RuleRow& row, std::string_view column);
/// The same for a weight whose unit, `lb` or `kg`, belongs to the column.
[[nodiscard]] Result<std::optional<Mass>> massIn(const RuleRow& row, std::string_view column,
                                                 std::string_view unit);
/// Names in a cell that are parted by `separator`; empty for an empty cell.
[[nodiscard]] std::vector<std::string> namesIn(const RuleRow& row, std::string_view column,
                                               std::string_view separator);
/// Whether the value lies between the bounds: `from` is included, `below` is not, none is open.
[[nodiscard]] bool inBounds(double value, std::optional<double> from, std::optional<double> below);

/// A finding with what the row knows of itself: citation, firmness and, but for common practice, the edition
/// of the book.
[[nodiscard]] Finding findingOf(const Rulebook& book, const RuleRow& row, std::string rule, Severity severity,
                                std::string headline, std::string remedy = {});
/// The error of a rulebook that has no such table.
[[nodiscard]] Error withoutTable(const Rulebook& book, std::string_view subject);
/// `99.790 kg (220.0 lb)`, for workings that a scale in either unit must meet.
[[nodiscard]] std::string bothUnits(Mass mass);

} // namespace tarebook
