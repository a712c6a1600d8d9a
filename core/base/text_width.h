#pragma once

#include <algorithm>
#include <cstddef>
#include <string_view>

namespace tarebook {

/// Characters of a UTF-8 text, for columns that line up; not bytes: continuation bytes do not count.
[[nodiscard]] inline std::size_t characterCount(std::string_view text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char byte) {
        return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U;
    }));
}

} // namespace tarebook
