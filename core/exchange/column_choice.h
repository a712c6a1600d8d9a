#pragma once

#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/exchange/column_map.h"

namespace tarebook {

/// That a field stands in a column of the sheet, as a person said.
struct ColumnChoice {
    std::string field;
    int place = -1; // from 0; -1: in none
};

/// Reads `gross=Weight in`, by the header without regard to case, `gross=#3`, the third column, or `gross=`,
/// none. Error: no such field of the kind, no such column, or a header that stands twice; names those there
/// are.
[[nodiscard]] Result<ColumnChoice> columnChoiceIn(const std::string& text, const Sheet& sheet,
                                                  SheetKind kind);
/// The columns as guessed, with these choices put in.
[[nodiscard]] Result<ColumnMap> columnsChosen(const Sheet& sheet, SheetKind kind, const SheetHabits& habits,
                                              const std::vector<std::string>& choices);

} // namespace tarebook
