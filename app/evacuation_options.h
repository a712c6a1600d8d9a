#pragma once

#include <string>

#include <CLI/CLI.hpp>

#include "core/rules/evacuation.h"

namespace tarebook {

/// How far an appliance was evacuated, as options of a verb have it.
struct EvacuationOptions {
    bool small = false;
    std::string work = "any";
    std::string reached;
};

/// Adds --small, --work and --reached.
void addEvacuationOptions(CLI::App& verb, EvacuationOptions& options);

/// Nothing where no reading was given. Error names the option.
[[nodiscard]] Result<std::optional<EvacuationReading>> reachedIn(const EvacuationOptions& options);

} // namespace tarebook
