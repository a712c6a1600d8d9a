#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include <nlohmann/json.hpp>

#include "core/base/result.h"
#include "core/quantity/mass.h"

namespace tarebook {

/// Reads fields of an entry's body and remembers the first one that was missing or wrong, so that a caller
/// reads all it needs and asks once.
class BodyReader {
public:
    /// `within` stands before the keys of an object of the body in what is said of it: `terms.exchange.`.
    explicit BodyReader(const nlohmann::json& body, std::string within = {})
        : m_body(body), m_within(std::move(within)) {}

    /// A text that must be there and not be empty.
    [[nodiscard]] std::string text(const char* key);
    /// Empty when it is not there.
    [[nodiscard]] std::string optionalText(const char* key);
    /// Milligrams that must be there.
    [[nodiscard]] Mass mass(const char* key);
    /// Above zero and at most 1000 t.
    [[nodiscard]] Mass massAboveZero(const char* key);
    /// Zero to 1000 t.
    [[nodiscard]] Mass massFromZero(const char* key);
    /// A whole number that may be missing; it must lie within the bounds, both included.
    [[nodiscard]] std::optional<std::int64_t> optionalWhole(const char* key, std::int64_t least,
                                                            std::int64_t most);
    /// Null when it is not there.
    [[nodiscard]] const nlohmann::json* field(const char* key) const;
    [[nodiscard]] bool has(const char* key) const { return m_body.is_object() && m_body.contains(key); }
    /// Notes a field as wrong.
    void refuse(std::string_view key, std::string_view why);

    [[nodiscard]] bool ok() const { return m_error.wrong.empty(); }
    [[nodiscard]] const Error& error() const { return m_error; }

private:
    const nlohmann::json& m_body;
    std::string m_within;
    Error m_error;
};

} // namespace tarebook
