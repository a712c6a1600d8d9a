#pragma once

#include <nlohmann/json.hpp>

#include "app/command.h"
#include "core/shop/copies.h"

namespace tarebook {

/// A copy and how it stands to the books; `known`: whether what would be lost is.
[[nodiscard]] nlohmann::json jsonOfCopy(const CopyRow& row, bool known);
void addRestoreCommand(CLI::App& program, CommandContext& context);

} // namespace tarebook
