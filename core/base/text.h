#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace tarebook {

/// Without the white space (ASCII) at both ends.
[[nodiscard]] std::string_view trimmed(std::string_view text);
/// A person's cell, made plain: no-break spaces (U+00A0, U+202F) become spaces, and both ends are trimmed.
[[nodiscard]] std::string tidied(std::string_view text);
/// The fewest insertions, deletions and exchanges of a byte that make one text the other. Long texts cost the
/// product of their lengths: compare short ones.
[[nodiscard]] std::size_t editDistance(std::string_view one, std::string_view other);
/// ASCII letters in lower case; all other bytes as they are.
[[nodiscard]] std::string lowered(std::string_view text);
/// The pieces between the separators; never empty.
[[nodiscard]] std::vector<std::string> split(std::string_view text, char separator);
/// For messages: at most 40 bytes of the text, control bytes shown as '?'.
[[nodiscard]] std::string quoted(std::string_view text);

} // namespace tarebook
