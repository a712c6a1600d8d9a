#pragma once

#include <set>
#include <string>

#include "core/refrigerant/catalogue.h"

namespace tarebook {

/// What the law calls contents, by the classes of the catalogue: `ods` (holds a CFC, HCFC or halon: class I
/// or II), `hfc`, `hfo` (holds one), `halocarbon` (any of these, or another halogenated substance), `a2l`
/// (group A2L of ASHRAE 34, of the contents as a whole). Contents without a halocarbon are `hydrocarbon`,
/// `ammonia`, `carbon-dioxide`, `nitrogen` or `other`, each that is in them. Always `any`.
[[nodiscard]] std::set<std::string> gasKinds(const Catalogue& catalogue, const Contents& contents);

} // namespace tarebook
