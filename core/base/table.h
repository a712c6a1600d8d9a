#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"

namespace tarebook {

/// A resource table: lines that begin with '#' are comments, the first other line names the columns, fields
/// that hold a comma stand in double quotes.
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
