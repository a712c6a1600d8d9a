#include "core/base/plain_text.h"

#include <fmt/format.h>

namespace tarebook {

namespace {

constexpr unsigned kSpace = 0x20;
constexpr unsigned kDelete = 0x7F;
constexpr unsigned kUpperFirst = 0x80;
constexpr unsigned kUpperEnd = 0xA0;
constexpr char kUpperLead = '\xC2';                     // of U+0080 to U+00BF, RFC 3629
constexpr std::string_view kSeparatorLead = "\xE2\x80"; // of U+2000 to U+203F
constexpr std::string_view kIsolateLead = "\xE2\x81";   // of U+2040 to U+207F
constexpr std::size_t kThreeBytes = 3;
constexpr std::string_view kReplacement = "\xEF\xBF\xBD"; // U+FFFD

unsigned byteOf(char character) {
    return static_cast<unsigned char>(character);
}

bool isLower(char character) {
    return byteOf(character) < kSpace || byteOf(character) == kDelete;
}

/// Second byte of U+0080 to U+009F.
bool isUpperTail(char character) {
    return byteOf(character) >= kUpperFirst && byteOf(character) < kUpperEnd;
}

/// U+2028 to U+202E or U+2066 to U+2069 at the beginning of a text; 0: it begins with another.
unsigned separatorOrMark(std::string_view from) {
    if (from.size() < kThreeBytes) {
        return 0;
    }
    const unsigned last = byteOf(from[2]);
    if (from.starts_with(kSeparatorLead) && last >= 0xA8U && last <= 0xAEU) {
        return 0x2028U + (last - 0xA8U);
    }
    if (from.starts_with(kIsolateLead) && last >= 0xA6U && last <= 0xA9U) {
        return 0x2066U + (last - 0xA6U);
    }
    return 0;
}

std::string pictureOf(char control) {
    if (byteOf(control) == kDelete) {
        return "\xE2\x90\xA1"; // U+2421
    }
    return std::string("\xE2\x90") + static_cast<char>(kUpperFirst + byteOf(control)); // U+2400 and on
}

} // namespace

std::string controlIn(std::string_view text) {
    for (std::size_t place = 0; place < text.size(); ++place) {
        const char character = text[place];
        const std::string_view from = text.substr(place);
        if (character == '\t') {
            return "a tab";
        }
        const unsigned point = separatorOrMark(from);
        if (character == '\n' || character == '\r' || point == 0x2028U || point == 0x2029U) {
            return "a line break";
        }
        if (point != 0) {
            return fmt::format("the direction mark U+{:04X}", point);
        }
        if (isLower(character)) {
            return fmt::format("the control character U+{:04X}", byteOf(character));
        }
        if (character == kUpperLead && from.size() > 1 && isUpperTail(from[1])) {
            return fmt::format("the control character U+{:04X}", byteOf(from[1]));
        }
    }
    return "";
}

std::string ControlPictures::shown(std::string_view piece) {
    std::string text;
    text.reserve(piece.size());
    for (const char character : piece) {
        if (m_held == '\r') {
            text += character == '\n' ? "\r" : pictureOf('\r');
        } else if (m_held == kUpperLead && isUpperTail(character)) {
            text += kReplacement;
            m_held = 0;
            continue;
        } else if (m_held == kUpperLead) {
            text += m_held;
        }
        m_held = 0;
        if (character == '\r' || character == kUpperLead) {
            m_held = character;
        } else if (isLower(character) && character != '\n' && character != '\t') {
            text += pictureOf(character);
        } else {
            text += character;
        }
    }
    return text;
}

std::string ControlPictures::rest() {
    const char held = m_held;
    m_held = 0;
    if (held == '\r') {
        return pictureOf(held);
    }
    return held == 0 ? std::string() : std::string(1, held);
}

std::string withControlPictures(std::string_view text) {
    ControlPictures pictures;
    std::string shown = pictures.shown(text);
    return shown + pictures.rest();
}

std::string onOneLine(std::string_view text) {
    std::string line;
    line.reserve(text.size());
    for (std::size_t place = 0; place < text.size(); ++place) {
        const char character = text[place];
        if (isLower(character)) {
            line += pictureOf(character);
        } else if (character == kUpperLead && place + 1 < text.size() && isUpperTail(text[place + 1])) {
            line += kReplacement;
            ++place;
        } else if (separatorOrMark(text.substr(place)) != 0) {
            line += kReplacement;
            place += kThreeBytes - 1;
        } else {
            line += character;
        }
    }
    return line;
}

std::string withControlsEscaped(std::string_view json) {
    std::string text;
    text.reserve(json.size());
    for (std::size_t place = 0; place < json.size(); ++place) {
        const char character = json[place];
        if (byteOf(character) == kDelete) {
            text += "\\u007f";
        } else if (character == kUpperLead && place + 1 < json.size() && isUpperTail(json[place + 1])) {
            ++place;
            text += fmt::format("\\u{:04x}", byteOf(json[place]));
        } else {
            text += character;
        }
    }
    return text;
}

} // namespace tarebook
