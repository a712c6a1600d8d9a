#pragma once

#include "app/command.h"

namespace tarebook {

/// `batch receive`, `batch receipt`, `batch decide` and `batch certificate`, beside the others of the family.
void addReceiptSteps(CLI::App& family, CommandContext& context);

} // namespace tarebook
