#include "core/base/text.h"

namespace tarebook {

namespace {
constexpr std::size_t kQuotedBytes = 40;

bool isSpace(char character) {
    return character == ' ' || (character >= '\t' && character <= '\r');
}
} // namespace

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && isSpace(text.front())) {
        text.remove_prefix(1);
    }
    while (!text.empty() && isSpace(text.back())) {
        text.remove_suffix(1);
    }
    return text;
}

std::string lowered(std::string_view text) {
    std::string lower(text);
    for (char& character : lower) {
        if (character >= 'A' && character <= 'Z') {
            character = static_cast<char>(character - 'A' + 'a');
        }
    }
    return lower;
}

std::vector<std::string> split(std::string_view text, char separator) {
    std::vector<std::string> pieces;
    for (;;) {
        const std::size_t end = text.find(separator);
        pieces.emplace_back(text.substr(0, end));
        if (end == std::string_view::npos) {
            return pieces;
        }
        text.remove_prefix(end + 1);
    }
}

std::string quoted(std::string_view text) {
    std::string shown = "'";
    std::size_t end = text.size();
    if (end > kQuotedBytes) {
        end = kQuotedBytes;
        while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) {
            --end; // never in the middle of a character
        }
    }
    for (const char character : text.substr(0, end)) {
        const auto byte = static_cast<unsigned char>(character);
        shown += (byte < 32U || byte == 127U) ? '?' : character;
    }
    return shown + (text.size() > kQuotedBytes ? "…'" : "'");
}

} // namespace tarebook
