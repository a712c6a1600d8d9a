#pragma once

#include "app/command.h"

namespace tarebook {

/// `batch parents`.
void addParentsStep(CLI::App& family, CommandContext& context);

} // namespace tarebook
