#include "core/base/encoding.h"

#include <algorithm>
#include <array>
#include <cstdint>

#include <fmt/format.h>

namespace tarebook {

namespace {

constexpr std::string_view kMarkUtf8 = "\xEF\xBB\xBF";
constexpr std::string_view kMarkUtf16Little = "\xFF\xFE";
constexpr std::string_view kMarkUtf16Big = "\xFE\xFF";
constexpr char32_t kReplacement = 0xFFFD;

// Windows-1252, bytes 80 to 9F (the Unicode Consortium's table CP1252.TXT); five of them name no character.
constexpr std::array<char16_t, 32> kWindows1252 = {
    0x20AC, 0xFFFD, 0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160,
    0x2039, 0x0152, 0xFFFD, 0x017D, 0xFFFD, 0xFFFD, 0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
    0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0xFFFD, 0x017E, 0x0178};

unsigned byteAt(std::string_view bytes, std::size_t place) {
    return static_cast<unsigned char>(bytes[place]);
}

void append(std::string& text, char32_t code) {
    const auto put = [&text](char32_t byte) { text += static_cast<char>(byte); };
    if (code < 0x80) {
        put(code);
    } else if (code < 0x800) {
        put(0xC0 | code >> 6);
        put(0x80 | (code & 0x3F));
    } else if (code < 0x10000) {
        put(0xE0 | code >> 12);
        put(0x80 | (code >> 6 & 0x3F));
        put(0x80 | (code & 0x3F));
    } else {
        put(0xF0 | code >> 18);
        put(0x80 | (code >> 12 & 0x3F));
        put(0x80 | (code >> 6 & 0x3F));
        put(0x80 | (code & 0x3F));
    }
}

/// Length of the well-formed sequence at the place, 0 where there is none (RFC 3629, section 4).
std::size_t sequenceAt(std::string_view bytes, std::size_t place) {
    const unsigned first = byteAt(bytes, place);
    if (first < 0x80) {
        return 1;
    }
    const std::size_t length = first >= 0xC2 && first <= 0xDF   ? 2
                               : first >= 0xE0 && first <= 0xEF ? 3
                               : first >= 0xF0 && first <= 0xF4 ? 4
                                                                : 0;
    if (length == 0 || place + length > bytes.size()) {
        return 0;
    }
    const unsigned second = byteAt(bytes, place + 1);
    const unsigned least = first == 0xE0 ? 0xA0U : first == 0xF0 ? 0x90U : 0x80U;
    const unsigned most = first == 0xED ? 0x9FU : first == 0xF4 ? 0x8FU : 0xBFU;
    if (second < least || second > most) {
        return 0;
    }
    for (std::size_t next = place + 2; next < place + length; ++next) {
        if ((byteAt(bytes, next) & 0xC0U) != 0x80U) {
            return 0;
        }
    }
    return length;
}

/// Place of the first byte that is not part of a well-formed sequence; the size where all are.
std::size_t firstBroken(std::string_view bytes) {
    std::size_t place = 0;
    while (place < bytes.size()) {
        const std::size_t length = sequenceAt(bytes, place);
        if (length == 0) {
            return place;
        }
        place += length;
    }
    return place;
}

std::string fromWindows1252(std::string_view bytes) {
    std::string text;
    text.reserve(bytes.size() + bytes.size() / 8);
    for (std::size_t place = 0; place < bytes.size(); ++place) {
        const unsigned byte = byteAt(bytes, place);
        append(text, byte >= 0x80 && byte < 0xA0 ? char32_t{kWindows1252.at(byte - 0x80)} : char32_t{byte});
    }
    return text;
}

std::string fromUtf16(std::string_view bytes, bool littleEndian) {
    std::string text;
    text.reserve(bytes.size());
    const auto unitAt = [&](std::size_t place) {
        return static_cast<char32_t>(littleEndian ? byteAt(bytes, place) | byteAt(bytes, place + 1) << 8
                                                  : byteAt(bytes, place) << 8 | byteAt(bytes, place + 1));
    };
    for (std::size_t place = 0; place + 1 < bytes.size(); place += 2) {
        const char32_t unit = unitAt(place);
        if (unit < 0xD800 || unit > 0xDFFF) {
            append(text, unit);
            continue;
        }
        const char32_t low = unit < 0xDC00 && place + 3 < bytes.size() ? unitAt(place + 2) : 0;
        if (low >= 0xDC00 && low <= 0xDFFF) {
            append(text, 0x10000 + ((unit - 0xD800) << 10) + (low - 0xDC00));
            place += 2;
        } else {
            append(text, kReplacement);
        }
    }
    return text;
}

/// Beginnings of files that people take for a table: zip (XLSX, ODS), compound file (XLS), PDF.
bool isKnownBinary(std::string_view bytes) {
    return bytes.starts_with("PK\x03\x04") || bytes.starts_with("\xD0\xCF\x11\xE0") ||
           bytes.starts_with("%PDF-");
}

} // namespace

bool isValidUtf8(std::string_view bytes) {
    return firstBroken(bytes) == bytes.size();
}

Result<DecodedText> decodeText(std::string_view bytes) {
    if (isKnownBinary(bytes)) {
        return Error{"this is a workbook or another file that is not plain text",
                     "open it in the spreadsheet program and save the sheet as CSV"};
    }
    if (bytes.starts_with(kMarkUtf16Little) || bytes.starts_with(kMarkUtf16Big)) {
        const bool little = bytes.starts_with(kMarkUtf16Little);
        if (bytes.size() % 2 != 0) {
            return Error{"this UTF-16 text ends in the middle of a character",
                         "the file may be cut off: save it again"};
        }
        return DecodedText{fromUtf16(bytes.substr(2), little), little ? "UTF-16LE" : "UTF-16BE"};
    }
    const bool marked = bytes.starts_with(kMarkUtf8);
    if (marked) {
        bytes.remove_prefix(kMarkUtf8.size());
    }
    const std::size_t broken = firstBroken(bytes);
    if (broken == bytes.size()) {
        return DecodedText{std::string(bytes), marked ? "UTF-8 with byte order mark" : "UTF-8"};
    }
    if (marked) {
        const auto lines =
            std::count(bytes.begin(), bytes.begin() + static_cast<std::ptrdiff_t>(broken), '\n');
        return Error{
            fmt::format("line {} holds a byte that is not UTF-8, though the file says it is", lines + 1),
            "save it again as UTF-8"};
    }
    return DecodedText{fromWindows1252(bytes), "Windows-1252"};
}

} // namespace tarebook
