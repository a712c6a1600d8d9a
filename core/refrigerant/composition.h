#pragma once

#include <map>
#include <string>

#include "core/refrigerant/contents.h"

namespace tarebook {

/// Contents from parts by mass, divided by their sum; parts that are not above zero are left out. Empty when
/// there is none.
[[nodiscard]] Contents normalised(const std::map<std::string, double>& parts);

/// `R-22 70.0 % + R-32 15.0 %`: by mass, largest first; shares under 0.1 % with their first two digits.
[[nodiscard]] std::string compositionText(const Contents& contents);

} // namespace tarebook
