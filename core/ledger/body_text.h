#pragma once

#include <string>

#include <nlohmann/json.hpp>

namespace tarebook {

/// A text of an entry's body, or of an object in it; empty where it has none under the key. For what is read
/// of entries that were taken long ago; what a new one must have, BodyReader says.
[[nodiscard]] std::string bodyText(const nlohmann::json& body, const char* key);

} // namespace tarebook
