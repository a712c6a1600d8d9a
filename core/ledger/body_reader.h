#pragma once

#include <string>
#include <string_view>

#include <nlohmann/json.hpp>

#include "core/base/result.h"
#include "core/quantity/mass.h"

namespace tarebook {

/// Reads fields of an entry's body and remembers the first one that was missing or wrong, so that a caller
/// reads all it needs and asks once.
class BodyReader {
public:
    explicit BodyReader(const nlohmann::json& body) : m_body(body) {}

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
    [[nodiscard]] bool has(const char* key) const { return m_body.is_object() && m_body.contains(key); }
    /// Notes a field as wrong.
    void refuse(std::string_view key, std::string_view why);

    [[nodiscard]] bool ok() const { return m_error.wrong.empty(); }
    [[nodiscard]] const Error& error() const { return m_error; }

private:
    const nlohmann::json& m_body;
    Error m_error;
};

} // namespace tarebook
