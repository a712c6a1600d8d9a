#include "core/base/sheet_scanner.h"

#include <algorithm>

#include "core/base/sheet.h"
#include "core/base/text.h"

namespace tarebook {

SheetScanner::SheetScanner(std::string_view text, char separator, bool hashComments, int firstLine)
    : m_text(text), m_separator(separator), m_hashComments(hashComments), m_line(firstLine) {}

std::size_t SheetScanner::lineEndFrom(std::size_t place) const {
    while (place < m_text.size() && m_text[place] != '\n' && m_text[place] != '\r') {
        ++place;
    }
    return place;
}

void SheetScanner::passLineEnd() {
    if (m_place >= m_text.size()) {
        return;
    }
    m_place += m_text.substr(m_place, 2) == "\r\n" ? 2 : 1;
    ++m_line;
}

void SheetScanner::skipLine() {
    m_place = lineEndFrom(m_place);
    passLineEnd();
}

bool SheetScanner::next(ScannedRow& row) {
    for (;;) {
        if (m_place >= m_text.size()) {
            return false;
        }
        if (m_hashComments && m_text[m_place] == '#') {
            skipLine();
            continue;
        }
        // A line of nothing but blanks is no row; a tab counts as a blank unless it separates.
        std::size_t ahead = m_place;
        while (ahead < m_text.size() &&
               (m_text[ahead] == ' ' || (m_text[ahead] == '\t' && m_separator != '\t'))) {
            ++ahead;
        }
        if (ahead < m_text.size() && m_text[ahead] != '\n' && m_text[ahead] != '\r') {
            break;
        }
        m_place = ahead;
        passLineEnd();
    }
    row = ScannedRow{};
    row.line = m_line;
    for (;;) {
        scanCell(row);
        if (row.openQuote || m_place >= m_text.size() || m_text[m_place] != m_separator) {
            break;
        }
        ++m_place;
    }
    row.lastLine = m_line;
    passLineEnd();
    return true;
}

void SheetScanner::keep(ScannedRow& row, std::string& cell, std::string_view piece) const {
    if (row.nulCell < 0 && piece.find('\0') != std::string_view::npos) {
        row.nulCell = static_cast<int>(row.cells.size());
    }
    const std::size_t room = kMostCellBytes - std::min(kMostCellBytes, cell.size());
    cell += piece.substr(0, room);
}

void SheetScanner::scanCell(ScannedRow& row) {
    std::string cell;
    m_cellBytes = 0;
    std::size_t start = m_place;
    while (start < m_text.size() && m_text[start] == ' ') {
        ++start;
    }
    if (start < m_text.size() && m_text[start] == '"') {
        const int line = m_line;
        m_place = start + 1;
        scanQuoted(row, cell);
        if (row.openQuote) {
            giveUpQuote(row, start, line);
            return;
        }
    }
    std::size_t end = m_place;
    while (end < m_text.size() && m_text[end] != m_separator && m_text[end] != '\n' && m_text[end] != '\r') {
        ++end;
    }
    const std::string_view plain = m_text.substr(m_place, end - m_place);
    const bool quoted = m_place > start;
    if (!quoted || !trimmed(plain).empty()) {
        keep(row, cell, plain);
        m_cellBytes += plain.size();
        if (quoted && row.behindQuoteCell < 0) {
            row.behindQuoteCell = static_cast<int>(row.cells.size());
        }
    }
    m_place = end;
    if (m_cellBytes > kMostCellBytes && row.longCell < 0) {
        row.longCell = static_cast<int>(row.cells.size());
        row.longestBytes = m_cellBytes;
    }
    if (row.cells.size() >= kMostSheetColumns) {
        ++row.tooManyCells;
    } else {
        row.cells.push_back(std::move(cell));
    }
}

void SheetScanner::scanQuoted(ScannedRow& row, std::string& cell) {
    for (;;) {
        const std::size_t quote = m_text.find('"', m_place);
        if (quote == std::string_view::npos) {
            row.openQuote = true;
            return;
        }
        const std::string_view piece = m_text.substr(m_place, quote - m_place);
        for (std::size_t place = 0; place < piece.size(); ++place) {
            const bool partOfPair =
                piece[place] == '\r' && place + 1 < piece.size() && piece[place + 1] == '\n';
            m_line += (piece[place] == '\n' || (piece[place] == '\r' && !partOfPair)) ? 1 : 0;
        }
        keep(row, cell, piece);
        m_cellBytes += piece.size();
        m_place = quote + 1;
        if (m_place >= m_text.size() || m_text[m_place] != '"') {
            return;
        }
        keep(row, cell, "\"");
        ++m_cellBytes;
        ++m_place;
    }
}

// The scan goes on in the line below. Behind a quote that never closes all quotes stand in even runs (an odd
// one would have closed it), so no later cell can stay open again: this happens at most once a text, which
// keeps the scan linear.
void SheetScanner::giveUpQuote(ScannedRow& row, std::size_t quote, int line) {
    m_line = line;
    m_place = lineEndFrom(quote);
    if (row.cells.size() < kMostSheetColumns) {
        row.cells.emplace_back(m_text.substr(quote, std::min(kMostCellBytes, m_place - quote)));
    }
}

} // namespace tarebook
