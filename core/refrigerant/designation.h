#pragma once

#include <string>
#include <string_view>

namespace tarebook {

/// As papers show it: `R410A` becomes `R-410A`, `RE170` becomes `R-E170`; a name that does not begin with R
/// and a letter or digit stays as it is.
[[nodiscard]] std::string displayedDesignation(std::string_view designation);

/// What is left to compare of a spelling: without white space, hyphens, and a class prefix (R-, HFC-, HCFC-,
/// HFO-, ...), in lower case: `HFC-134a` and `r 134 a` become `134a`.
[[nodiscard]] std::string foldedDesignation(std::string_view text);

/// How many characters must be added, left out or changed to make the one of the other.
[[nodiscard]] std::size_t spellingDistance(std::string_view one, std::string_view other);

} // namespace tarebook
