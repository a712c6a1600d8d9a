#pragma once

#include <string>

#include <CLI/CLI.hpp>
#include <nlohmann/json.hpp>

#include "core/rules/identity_check.h"

namespace tarebook {

/// What a gauge showed, as options of a verb have it.
struct ReadingOptions {
    std::string at;
    std::string measured;
    std::string rest;
    std::string liquid;
    std::string gaugeError;
    std::string thermometerError;
};

/// Adds --measured, --rest, --liquid, --gauge-error and --thermometer-error, and --at where none is given;
/// all but
/// --at need --measured, which needs --at.
void addReadingOptions(CLI::App& verb, ReadingOptions& options, CLI::Option* at = nullptr);

/// Nothing where no pressure was given. Error names the option.
[[nodiscard]] Result<std::optional<PressureReading>> readingIn(const ReadingOptions& options);

/// All of a check for machines.
[[nodiscard]] nlohmann::ordered_json jsonOf(const IdentityCheck& check, const PressureReading& reading);

} // namespace tarebook
