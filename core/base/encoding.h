#pragma once

#include <string>
#include <string_view>

#include "core/base/result.h"

namespace tarebook {

/// Text that was in any of the encodings spreadsheets write, now UTF-8 without a byte order mark.
struct DecodedText {
    std::string text;     // valid UTF-8; bytes that name no character have become U+FFFD
    std::string encoding; // `UTF-8`, `UTF-8 with byte order mark`, `UTF-16LE`, `UTF-16BE`, `Windows-1252`
};

/// True where every byte belongs to a well-formed sequence (RFC 3629: no surrogates, no overlong forms).
[[nodiscard]] bool isValidUtf8(std::string_view bytes);

/// A byte order mark decides; without one, bytes that are not valid UTF-8 are taken as Windows-1252. Error: a
/// workbook or another file that is no text; broken UTF-8 behind its own mark (names the line); UTF-16 with
/// half a unit at its end. Time and memory grow with the bytes, at most threefold.
[[nodiscard]] Result<DecodedText> decodeText(std::string_view bytes);

} // namespace tarebook
