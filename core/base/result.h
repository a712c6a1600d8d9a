#pragma once

#include <string>
#include <utility>
#include <variant>

namespace tarebook {

/// What was wrong, and what would be right. Both are sentences for the person.
struct Error {
    std::string wrong;
    std::string right;

    [[nodiscard]] std::string text() const { return right.empty() ? wrong : wrong + "; " + right; }
    bool operator==(const Error&) const = default;
};

/// A value or an Error. Across rooms this takes the place of exceptions.
template <typename T> class [[nodiscard]] Result {
public:
    Result(T value) : m_content(std::move(value)) {}
    Result(Error error) : m_content(std::move(error)) {}

    [[nodiscard]] bool ok() const { return m_content.index() == 0; }
    explicit operator bool() const { return ok(); }
    /// Only after ok().
    [[nodiscard]] const T& value() const& { return std::get<0>(m_content); }
    [[nodiscard]] T&& value() && { return std::get<0>(std::move(m_content)); }
    /// Only after !ok().
    [[nodiscard]] const Error& error() const { return std::get<1>(m_content); }

private:
    std::variant<T, Error> m_content;
};

} // namespace tarebook
