#pragma once

#include "app/command.h"

namespace tarebook {

/// Enters that one cylinder was given at a counter and another number came back for it.
void addExchangeCommand(CLI::App& program, CommandContext& context);

} // namespace tarebook
