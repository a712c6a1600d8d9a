#pragma once

#include <memory>
#include <optional>

#include "app/command.h"
#include "core/base/result.h"

namespace tarebook {

/// Adds --confirm to a verb that enters a tare.
void addTareConfirmation(CLI::App& verb, bool& confirmed);

/// Why a tare waits for a yes; nothing when nothing is odd about it, or it was confirmed. `option` is where
/// it was given.
[[nodiscard]] std::optional<Error> waitsForYes(const char* option, const std::optional<Error>& question,
                                               bool confirmed);

} // namespace tarebook
