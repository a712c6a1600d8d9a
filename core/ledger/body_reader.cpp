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

} // namespace

std::string BodyReader::text(const char* key) {
    std::string value = optionalText(key);
    if (value.empty()) {
        refuse(key, "is missing or empty");
    }
    return value;
}

std::string BodyReader::optionalText(const char* key) {
    const auto* its = field(key);
    if (its == nullptr) {
        return {};
    }
    if (!its->is_string()) {
        refuse(key, "is no text");
        return {};
    }
    return its->get_ref<const std::string&>();
}

Mass BodyReader::mass(const char* key) {
    const auto* its = field(key);
    if (its == nullptr || !its->is_number_integer() || !fitsSigned(*its)) {
        refuse(key, "is missing or no whole number of milligrams");
        return {};
    }
    return Mass::fromMilligrams(its->get<std::int64_t>());
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

std::optional<std::int64_t> BodyReader::optionalWhole(const char* key, std::int64_t least,
                                                      std::int64_t most) {
    const auto* number = field(key);
    if (number == nullptr) {
        return std::nullopt;
    }
    if (!number->is_number_integer() || !fitsSigned(*number) || number->get<std::int64_t>() < least ||
        number->get<std::int64_t>() > most) {
        refuse(key, fmt::format("is no whole number from {} to {}", least, most));
        return std::nullopt;
    }
    return number->get<std::int64_t>();
}

const nlohmann::json* BodyReader::field(const char* key) const {
    if (!m_body.is_object()) {
        return nullptr;
    }
    const auto place = m_body.find(key);
    return place == m_body.end() ? nullptr : &*place;
}

void BodyReader::refuse(std::string_view key, std::string_view why) {
    if (ok()) {
        m_error = Error{fmt::format("{}{} {}", m_within, key, why),
                        "docs/journal.md lists the fields of each kind"};
    }
}

} // namespace tarebook
