#pragma once

#include <string>
#include <string_view>

#include "core/exchange/column_map.h"

namespace tarebook {

/// A header cut into its words and its unit: `WC (lb)` is `wc` and `lb`.
struct HeaderWords {
    std::string words; // lower case, letters and digits, one space between words; `#` is the word `no`
    std::string unit;  // `lb`, `kg`, `oz`, `g`, `l`, or empty
};
[[nodiscard]] HeaderWords headerWords(std::string_view header);

/// The contract's name of the field that shops call so, or empty. `words` as headerWords() makes them.
[[nodiscard]] std::string_view fieldCalled(SheetKind kind, std::string_view words);

} // namespace tarebook
