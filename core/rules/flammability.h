#pragma once

#include "core/refrigerant/catalogue.h"

namespace tarebook {

/// What is known of contents burning. `unknown` is a mixture outside the catalogue that holds a substance
/// which burns: whether the rest smothers it only a test or the supplier can tell.
enum class Flammability { no, yes, unknown };

/// By the ASHRAE 34 group of what the contents are (2L, 2 and 3 burn), from the catalogue; a mixture that is
/// none of its refrigerants by that of its parts.
[[nodiscard]] Flammability flammabilityOf(const Catalogue& catalogue, const Contents& contents);

} // namespace tarebook
