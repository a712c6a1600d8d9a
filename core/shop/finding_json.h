#pragma once

#include <nlohmann/json.hpp>

#include "core/rules/finding.h"

namespace tarebook {

/// A finding as the views keep it and as the command line prints it.
[[nodiscard]] nlohmann::json jsonOf(const Finding& finding);
/// Reads what jsonOf() wrote; what is missing stays empty.
[[nodiscard]] Finding findingFrom(const nlohmann::json& object);

} // namespace tarebook
