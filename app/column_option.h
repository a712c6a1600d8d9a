#pragma once

#include <string>
#include <vector>

#include "app/command.h"
#include "core/exchange/column_choice.h"

namespace tarebook {

/// Adds --column FIELD=COLUMN to a verb that reads a sheet, to be given once for each field that is not
/// guessed right: every verb that reads one has it.
CLI::Option* addColumnOption(CLI::App& verb, std::vector<std::string>& columns);

} // namespace tarebook
