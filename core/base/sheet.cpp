#include "core/base/sheet.h"

#include <algorithm>
#include <array>
#include <fstream>
#include <optional>

#include <fmt/format.h>

#include "core/base/encoding.h"
#include "core/base/sheet_scanner.h"
#include "core/base/text.h"

namespace tarebook {

namespace {

constexpr std::array<char, 3> kSeparators = {',', ';', '\t'};
constexpr std::size_t kTrialBytes = 65'536;
constexpr int kTrialRows = 20;

std::string_view separatorWord(char separator) {
    return separator == ',' ? "commas" : separator == ';' ? "semicolons" : "tabs";
}

bool isBlank(const std::vector<std::string>& cells) {
    return std::all_of(cells.begin(), cells.end(),
                       [](const std::string& cell) { return trimmed(cell).empty(); });
}

/// The separator whose rows agree best with their header; a comma where none cuts the header.
char guessSeparator(std::string_view text, bool hashComments) {
    char best = ',';
    std::size_t bestScore = 0;
    for (const char separator : kSeparators) {
        SheetScanner scanner(text.substr(0, kTrialBytes), separator, hashComments);
        ScannedRow row;
        if (!scanner.next(row) || row.cells.size() < 2) {
            continue;
        }
        const std::size_t width = row.cells.size();
        std::size_t agreeing = 0;
        for (int count = 0; count < kTrialRows && scanner.next(row); ++count) {
            agreeing += row.cells.size() == width && !row.openQuote ? 1 : 0;
        }
        const std::size_t score = agreeing * (kMostSheetColumns + 1) + width;
        if (score > bestScore) {
            bestScore = score;
            best = separator;
        }
    }
    return best;
}

/// A first line `sep=;`, which spreadsheet programs understand: taken off the text.
std::optional<char> namedSeparator(std::string_view& text) {
    if (text.size() < 5 || lowered(text.substr(0, 4)) != "sep=" ||
        std::find(kSeparators.begin(), kSeparators.end(), text[4]) == kSeparators.end()) {
        return std::nullopt;
    }
    std::size_t end = 5;
    if (end < text.size() && text[end] == '\r') {
        ++end;
    }
    if (end < text.size() && text[end] == '\n') {
        ++end;
    }
    if (end == 5) {
        return std::nullopt;
    }
    const char separator = text[4];
    text.remove_prefix(end);
    return separator;
}

std::string columnName(const Sheet& sheet, int place) {
    const auto index = static_cast<std::size_t>(place);
    if (index < sheet.header.size() && !sheet.header[index].empty()) {
        return sheet.header[index];
    }
    return fmt::format("column {}", place + 1);
}

/// Brings the row to the width of the header where only blanks are missing or beyond.
void fitToHeader(const Sheet& sheet, std::vector<std::string>& cells) {
    while (cells.size() > sheet.header.size() && trimmed(cells.back()).empty()) {
        cells.pop_back();
    }
    std::size_t needed = sheet.header.size();
    while (needed > 0 && sheet.header[needed - 1].empty()) {
        --needed;
    }
    if (cells.size() >= needed && cells.size() < sheet.header.size()) {
        cells.resize(sheet.header.size());
    }
}

std::optional<SheetProblem> raggedness(const Sheet& sheet, const ScannedRow& row) {
    const std::size_t width = sheet.header.size();
    const std::size_t count = row.cells.size() + static_cast<std::size_t>(row.tooManyCells);
    if (count == width) {
        return std::nullopt;
    }
    std::string right = fmt::format("it should have {}, as the header has, with {} between them", width,
                                    separatorWord(sheet.separator));
    if (row.lastLine > row.line) {
        right +=
            fmt::format("; a quote keeps lines {} to {} together: is one too many?", row.line, row.lastLine);
    } else if (count > width) {
        right += "; put a cell that holds the separator in double quotes";
    }
    return SheetProblem{row.line, columnName(sheet, static_cast<int>(std::min(count, width))),
                        Error{fmt::format("the row has {} cell{}", count, count == 1 ? "" : "s"), right}};
}

std::optional<SheetProblem> problemOf(const Sheet& sheet, const ScannedRow& row) {
    if (row.openQuote) {
        return SheetProblem{row.line, columnName(sheet, static_cast<int>(row.cells.size()) - 1),
                            Error{fmt::format("a quote opens in line {} and never closes", row.lastLine),
                                  "close it, or double it where it belongs to the text"}};
    }
    if (row.nulCell >= 0) {
        return SheetProblem{row.line, columnName(sheet, row.nulCell),
                            Error{"the cell holds a NUL byte", "type the cell again"}};
    }
    if (row.longCell >= 0) {
        return SheetProblem{row.line, columnName(sheet, row.longCell),
                            Error{fmt::format("the cell is {} bytes long", row.longestBytes),
                                  fmt::format("a cell holds at most {}; is a line break or a quote missing?",
                                              kMostCellBytes)}};
    }
    if (row.behindQuoteCell >= 0) {
        return SheetProblem{row.line, columnName(sheet, row.behindQuoteCell),
                            Error{"text stands behind the closing quote of a cell",
                                  "double a quote that belongs to the text, as in \"5\"\" hose\""}};
    }
    return raggedness(sheet, row);
}

Result<bool> takeHeader(Sheet& sheet, ScannedRow& row) {
    const std::string where = fmt::format("line {}, which should name the columns, ", row.line);
    if (row.nulCell >= 0) {
        return Error{where + "holds a NUL byte", "this is no text, or text in an encoding without its byte "
                                                 "order mark: save the sheet as CSV in UTF-8"};
    }
    if (row.openQuote) {
        return Error{where + "opens a quote that never closes", "close it"};
    }
    if (row.longCell >= 0) {
        return Error{where + fmt::format("has a cell of {} bytes", row.longestBytes),
                     fmt::format("a cell holds at most {}", kMostCellBytes)};
    }
    if (row.tooManyCells > 0) {
        return Error{where + fmt::format("has {} cells",
                                         row.cells.size() + static_cast<std::size_t>(row.tooManyCells)),
                     fmt::format("at most {} columns can be read", kMostSheetColumns)};
    }
    if (isBlank(row.cells)) {
        return Error{where + "is blank", "write the names of the columns into the first line"};
    }
    sheet.headerLine = row.line;
    for (const std::string& cell : row.cells) {
        sheet.header.emplace_back(trimmed(cell));
    }
    return true;
}

Error noText() {
    return Error{"the file is empty", "its first line should name the columns, the lines below be the rows"};
}

} // namespace

int Sheet::column(std::string_view name) const {
    const auto found = std::find(header.begin(), header.end(), name);
    return found == header.end() ? -1 : static_cast<int>(found - header.begin());
}

const SheetProblem* Sheet::problemAt(int line) const {
    const auto found =
        std::lower_bound(problems.begin(), problems.end(), line,
                         [](const SheetProblem& problem, int wanted) { return problem.line < wanted; });
    return found != problems.end() && found->line == line ? &*found : nullptr;
}

Result<Sheet> readSheet(std::string_view bytes, const SheetOptions& options) {
    if (bytes.size() > kMostSheetBytes) {
        return Error{fmt::format("the file is larger than {} MB", kMostSheetBytes >> 20U),
                     "cut it into several"};
    }
    const auto decoded = decodeText(bytes);
    if (!decoded) {
        return decoded.error();
    }
    std::string_view text = decoded.value().text;
    Sheet sheet;
    sheet.encoding = decoded.value().encoding;
    const auto named = namedSeparator(text);
    sheet.separator = named ? *named : guessSeparator(text, options.hashComments);
    SheetScanner scanner(text, sheet.separator, options.hashComments, named ? 2 : 1);
    ScannedRow row;
    if (!scanner.next(row)) {
        return noText();
    }
    const auto header = takeHeader(sheet, row);
    if (!header) {
        return header.error();
    }
    while (scanner.next(row)) {
        if (sheet.rows.size() == kMostSheetRows) {
            return Error{fmt::format("the sheet has more than {} rows", kMostSheetRows),
                         "cut it into several"};
        }
        fitToHeader(sheet, row.cells);
        if (auto problem = problemOf(sheet, row)) {
            sheet.problems.push_back(std::move(*problem));
        }
        sheet.rows.push_back(SheetRow{row.line, std::move(row.cells)});
    }
    return sheet;
}

Result<Sheet> readSheetFile(const std::string& path, const SheetOptions& options) {
    std::ifstream file(path, std::ios::binary);
    std::string bytes;
    std::string piece(1U << 20U, '\0');
    while (file && bytes.size() <= kMostSheetBytes) {
        file.read(piece.data(), static_cast<std::streamsize>(piece.size()));
        bytes.append(piece, 0, static_cast<std::size_t>(file.gcount()));
    }
    if (!file.eof() && bytes.size() <= kMostSheetBytes) {
        return Error{fmt::format("{} cannot be read", tarebook::quoted(path)),
                     "check that the file is there"};
    }
    auto sheet = readSheet(bytes, options);
    if (!sheet) {
        return Error{path + ": " + sheet.error().wrong, sheet.error().right};
    }
    return sheet;
}

} // namespace tarebook
