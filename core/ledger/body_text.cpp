#include "core/ledger/body_text.h"

namespace tarebook {

std::string bodyText(const nlohmann::json& body, const char* key) {
    const auto place = body.find(key);
    return place != body.end() && place->is_string() ? place->get<std::string>() : std::string();
}

} // namespace tarebook
