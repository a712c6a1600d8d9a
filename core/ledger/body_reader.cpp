#include "core/ledger/body_reader.h"

#include <cstdint>
#include <limits>

#include <fmt/format.h>

namespace tarebook {

namespace {

constexpr std::int64_t kMostMilligrams = 1'000'000'000'000; // 1000 t

bool fitsSigned(const nlohmann::json& number) {
    return !number.is_number_unsigned() ||
           number.get<std::uint64_t>() <=
               static_cast<std::uint64_t>(std::numeric_limits<std::int64_t>::max());
}

/// Null when it is not there.
const nlohmann::json* fieldOf(const nlohmann::json& body, const char* key) {
    if (!body.is_object()) {
        return nullptr;
    }
    const auto place = body.find(key);
    return place == body.end() ? nullptr : &*place;
}

} // namespace

std::string BodyReader::text(const char* key) {
    std::string value = optionalText(key);
    if (value.empty()) {
        refuse(key, "is missing or empty");
    }
    return value;
}

std::string BodyReader::optionalText(const char* key) {
    const auto* field = fieldOf(m_body, key);
    if (field == nullptr) {
        return {};
    }
    if (!field->is_string()) {
        refuse(key, "is no text");
        return {};
    }
    return field->get_ref<const std::string&>();
}

Mass BodyReader::mass(const char* key) {
    const auto* field = fieldOf(m_body, key);
    if (field == nullptr || !field->is_number_integer() || !fitsSigned(*field)) {
        refuse(key, "is missing or no whole number of milligrams");
        return {};
    }
    return Mass::fromMilligrams(field->get<std::int64_t>());
}

Mass BodyReader::massAboveZero(const char* key) {
    const Mass value = mass(key);
    if (ok() && (value <= Mass() || value.milligrams() > kMostMilligrams)) {
        refuse(key, "must be above zero and at most 1000 t");
    }
    return value;
}

Mass BodyReader::massFromZero(const char* key) {
    const Mass value = mass(key);
    if (ok() && (value < Mass() || value.milligrams() > kMostMilligrams)) {
        refuse(key, "must not be negative nor above 1000 t");
    }
    return value;
}

void BodyReader::refuse(std::string_view key, std::string_view why) {
    if (ok()) {
        m_error = Error{fmt::format("{} {}", key, why), "docs/journal.md lists the fields of each kind"};
    }
}

} // namespace tarebook
