#include "core/base/text.h"

#include <algorithm>

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

std::string tidied(std::string_view text) {
    std::string plain;
    plain.reserve(text.size());
    while (!text.empty()) {
        if (text.starts_with("\xC2\xA0")) {
            plain += ' ';
            text.remove_prefix(2);
        } else if (text.starts_with("\xE2\x80\xAF")) {
            plain += ' ';
            text.remove_prefix(3);
        } else {
            plain += text.front();
            text.remove_prefix(1);
        }
    }
    return std::string(trimmed(plain));
}

std::size_t editDistance(std::string_view one, std::string_view other) {
    std::vector<std::size_t> row(other.size() + 1);
    for (std::size_t place = 0; place <= other.size(); ++place) {
        row[place] = place;
    }
    for (std::size_t first = 1; first <= one.size(); ++first) {
        std::size_t diagonal = row[0];
        row[0] = first;
        for (std::size_t second = 1; second <= other.size(); ++second) {
            const std::size_t changed = diagonal + (one[first - 1] == other[second - 1] ? 0U : 1U);
            diagonal = row[second];
            row[second] = std::min({changed, row[second] + 1, row[second - 1] + 1});
        }
    }
    return row.back();
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
