#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"

namespace tarebook {

/// A table as text: lines that begin with '#' are comments, the first other line names the columns, fields
/// that hold a comma stand in double quotes, a quote inside them is doubled (RFC 4180); a field ends with its
/// line. A UTF-8 byte order mark is passed over.
struct Table {
    std::vector<std::string> columns;
    std::vector<std::vector<std::string>> rows; // each as long as columns

    /// Place of the column, or -1.
    [[nodiscard]] int column(std::string_view name) const;
};

/// Error names the line whose number of fields is not that of the header.
[[nodiscard]] Result<Table> readTable(std::string_view text);
/// Error names the file.
[[nodiscard]] Result<Table> readTableFile(const std::string& path);

} // namespace tarebook
