#pragma once

#include <optional>

#include <nlohmann/json.hpp>

#include "core/shop/counter.h"

namespace tarebook {

/// What only a recovery from a system can have: for disposal, a machine, a level that was reached; and what
/// only a charge can. Nothing where all is right.
[[nodiscard]] std::optional<Error> wrongRecovery(Shop& shop, const CheckIn& facts);
/// Puts it into the body of the entry.
void putRecovery(const CheckIn& facts, nlohmann::json& body);

} // namespace tarebook
