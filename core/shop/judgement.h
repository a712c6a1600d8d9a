#pragma once

#include <string>

#include "core/base/result.h"
#include "core/refrigerant/catalogue.h"
#include "core/rules/rulebook.h"
#include "core/shop/settings.h"

namespace tarebook {

/// SHA-256 over the files of a folder and their names, in lower-case hex; other folders in it do not count.
/// Error: it cannot be read.
[[nodiscard]] Result<std::string> digestOfFolder(const std::string& folder);

/// What every cylinder of a shop is judged by, as one text: the rows of the rulebook that hold, the
/// properties of refrigerants, the shop's own blends and limits, the units in which findings are written, and
/// the logic of this program. Findings that are kept were found under one such text, and are found anew under
/// another.
[[nodiscard]] std::string judgementOf(const Rulebook& rulebook, const std::string& refrigerantsDigest,
                                      const Catalogue& catalogue, const Settings& settings);

} // namespace tarebook
