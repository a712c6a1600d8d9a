#pragma once

#include <optional>
#include <string>

#include "app/command.h"
#include "core/refrigerant/catalogue.h"
#include "core/shop/own_limits.h"

namespace tarebook {

/// What a calculator knows of refrigerants, and by which rulebook it judges.
struct KnownRefrigerants {
    Catalogue catalogue;
    std::string rulebook = "us";
    OwnLimits own = {}; // of the shop
};

/// Adds `--shop` to a verb that works without one.
void addOwnBlendsOption(CLI::App& verb, std::string& shopPath);

/// The catalogue, and with a shop file its own blends, rulebook and limits too. Nothing: the reason stands on
/// standard error and the exit code in the context.
[[nodiscard]] std::optional<KnownRefrigerants> knownRefrigerants(const std::string& shopPath,
                                                                 CommandContext& context);

} // namespace tarebook
