#pragma once

#include <string>

#include <CLI/CLI.hpp>

#include "core/shop/counter.h"

namespace tarebook {

/// Adds --purpose: recover, charge or carry.
void addPurpose(CLI::App& verb, std::string& purpose);
/// What the option was given; to recover where it is none of them.
[[nodiscard]] Purpose purposeOf(const std::string& word);

} // namespace tarebook
