#pragma once

#include "app/command.h"

namespace tarebook {

/// Lists what is on deposit, and enters it.
void addDepositsCommand(CLI::App& program, CommandContext& context);

} // namespace tarebook
