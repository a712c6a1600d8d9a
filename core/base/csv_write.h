#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace tarebook {

/// A cell for a CSV file: quoted where it must be (RFC 4180), and, so that a spreadsheet never runs a text as
/// a formula, with an apostrophe before a leading `=`, `+`, `-`, `@`, tab or line break that is not a plain
/// number's. readSheet() gives the shown text back, apostrophe included.
[[nodiscard]] std::string csvCell(std::string_view text);

/// The cells with commas between them, without a line end. A lone empty cell is written as `""`, since an
/// empty line is no row.
[[nodiscard]] std::string csvLine(const std::vector<std::string>& cells);

} // namespace tarebook
