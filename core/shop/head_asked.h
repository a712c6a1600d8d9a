#pragma once

#include <optional>
#include <string>

#include "core/shop/shop.h"

namespace tarebook {

/// The digits of a head as somebody reads it from a paper or from the window: in either case, blanks and the
/// ellipsis of what was shortened left away. Error: nothing is given, a letter that is no hex digit, or fewer
/// than the 16 that papers print: among many entries a short one is found by chance.
[[nodiscard]] Result<std::string> readHead(const std::string& text);

/// The entry whose digest begins so: the books that had it as their head are part of these. None: no entry
/// that can be read has it.
[[nodiscard]] Result<std::optional<Sequence>> entryOfHead(Shop& shop, const std::string& digits);

} // namespace tarebook
