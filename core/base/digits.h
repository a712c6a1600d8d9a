#pragma once

#include <cstdint>
#include <string>

namespace tarebook {

/// Adds a number from zero on with leading zeros; digits beyond the width are cut off at the front.
inline void addDigits(std::string& text, std::int64_t number, int width) {
    const std::size_t start = text.size();
    text.append(static_cast<std::size_t>(width), '0');
    for (std::size_t place = text.size(); place > start; number /= 10) {
        text[--place] = static_cast<char>('0' + number % 10);
    }
}

} // namespace tarebook
