#pragma once

#include "app/command.h"

namespace tarebook {

/// `batch terms` and `batch compose`.
void addComposeSteps(CLI::App& family, CommandContext& context);

} // namespace tarebook
