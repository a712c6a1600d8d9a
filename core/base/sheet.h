#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"

namespace tarebook {

/// A row as it stands in the file.
struct SheetRow {
    int line = 0; // of the file, counted from 1, where the row begins
    std::vector<std::string> cells;
};

/// Why a row cannot be used as it stands. The row is kept.
struct SheetProblem {
    int line = 0;
    std::string column; // its name, or `column 7` beyond the header
    Error error;
};

/// A person's spreadsheet, saved as text. Rows without a problem have as many cells as the header; the others
/// have what was found. Cells are UTF-8 and as typed, white space included; names in the header are trimmed.
struct Sheet {
    std::vector<std::string> header;
    int headerLine = 1;
    std::vector<SheetRow> rows;
    char separator = ',';
    std::string encoding;
    std::vector<SheetProblem> problems; // by line; at most one a row

    /// Place of the column of exactly this name, or -1.
    [[nodiscard]] int column(std::string_view name) const;
    /// The problem of the row that begins in this line, or nullptr.
    [[nodiscard]] const SheetProblem* problemAt(int line) const;
};

struct SheetOptions {
    bool hashComments = false; // lines that begin with '#' are passed over
};

/// What a sheet may hold, so that memory stays bounded whatever comes in.
inline constexpr std::size_t kMostSheetBytes = 256U << 20U;
inline constexpr std::size_t kMostSheetRows = 2'000'000;
inline constexpr std::size_t kMostSheetColumns = 1'000;
inline constexpr std::size_t kMostCellBytes = 65'536;

/// Reads text separated by commas, semicolons or tabs (found out from the first rows, or named by a first
/// line `sep=;`), with quotes as in RFC 4180: a quote begins a quoted cell only at the cell's start,
/// elsewhere it is a character (`5" hose`). Lines end with CR, LF or CRLF; empty lines are passed over.
/// Encodings: see encoding.h. A row that is ragged, holds a NUL or an overlong cell, or whose quote never
/// closes is a problem of that row. Error: nothing to read, no text, beyond the limits above, a header that
/// cannot name columns. Linear in the bytes.
[[nodiscard]] Result<Sheet> readSheet(std::string_view bytes, const SheetOptions& options = {});
/// Error names the file.
[[nodiscard]] Result<Sheet> readSheetFile(const std::string& path, const SheetOptions& options = {});

} // namespace tarebook
