#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace tarebook {

/// One row as it was scanned.
struct ScannedRow {
    int line = 0;     // where it begins
    int lastLine = 0; // where it ends: later than `line` when a quoted cell holds line breaks
    std::vector<std::string> cells;
    bool openQuote = false;       // its last cell begins, in lastLine, a quote that never closes
    int tooManyCells = 0;         // cells beyond the limit, which were dropped
    int longCell = -1;            // place of the first cell that was cut for its length
    int nulCell = -1;             // place of the first cell that holds a NUL
    int behindQuoteCell = -1;     // place of the first cell with text behind its closing quote
    std::size_t longestBytes = 0; // of the cut cell, before it was cut
};

/// Goes through UTF-8 text row by row (RFC 4180 with the liberties of readSheet()). The text must outlive it.
class SheetScanner {
public:
    SheetScanner(std::string_view text, char separator, bool hashComments, int firstLine = 1);

    /// The next row that is no empty line and no comment; false at the end.
    bool next(ScannedRow& row);

private:
    void skipLine();
    void passLineEnd();
    void scanCell(ScannedRow& row);
    void scanQuoted(ScannedRow& row, std::string& cell);
    void keep(ScannedRow& row, std::string& cell, std::string_view piece) const;
    void giveUpQuote(ScannedRow& row, std::size_t quote, int line);
    [[nodiscard]] std::size_t lineEndFrom(std::size_t place) const;

    std::string_view m_text;
    char m_separator;
    bool m_hashComments;
    int m_line;
    std::size_t m_place = 0;
    std::size_t m_cellBytes = 0; // of the cell being scanned, kept or not
};

} // namespace tarebook
