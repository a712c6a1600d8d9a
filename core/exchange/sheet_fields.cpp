#include "core/exchange/sheet_fields.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/base/plain_text.h"
#include "core/base/text.h"

namespace tarebook {

bool hasUnprintable(std::string_view text) {
    return text.find("\xEF\xBF\xBD") != std::string_view::npos || !controlIn(text).empty();
}

bool isBlankRow(const SheetRow& row) {
    return std::all_of(row.cells.begin(), row.cells.end(),
                       [](const std::string& cell) { return tidied(cell).empty(); });
}

void SheetFields::refuse(std::string_view field, Error error, bool confirmable) {
    const MappedColumn* column = m_map.find(field);
    const bool named = column != nullptr && !column->header.empty();
    m_problems.push_back(
        RowProblem{named ? column->header : std::string(field), std::move(error), confirmable});
}

std::string SheetFields::text(std::string_view field, std::size_t mostCharacters, std::string_view where) {
    if (cell(field).empty()) {
        refuse(field, Error{"the cell is blank", std::string(where)});
        return {};
    }
    return note(field, mostCharacters);
}

std::string SheetFields::note(std::string_view field, std::size_t mostCharacters) {
    std::string written = cell(field);
    if (characterCount(written) > mostCharacters) {
        refuse(field, Error{fmt::format("the cell has {} characters", characterCount(written)),
                            fmt::format("write at most {}", mostCharacters)});
        return {};
    }
    if (hasUnprintable(written)) {
        refuse(field,
               Error{fmt::format("{} holds a character that cannot be printed", tarebook::quoted(written)),
                     "type the cell again"});
        return {};
    }
    return written;
}

} // namespace tarebook
