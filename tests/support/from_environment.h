#pragma once

#include <cstdlib>

namespace tarebook::tests {

/// The whole number in a variable of the environment, or `otherwise` where it is not set.
inline long long numberFrom(const char* variable, long long otherwise) {
    const char* text = std::getenv(variable);
    return text == nullptr ? otherwise : std::strtoll(text, nullptr, 10);
}

} // namespace tarebook::tests
