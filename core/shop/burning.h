#pragma once

#include <optional>
#include <string>

#include "core/shop/card.h"

namespace tarebook {

/// Whether contents are a flammable gas on the road.
enum class Burns { no, yes, doubt };
/// By the shipping description of such contents (as Catalogue::contents() reads them): yes in Division 2.1.
/// Where it has none, by the safety groups of its parts; in doubt where a part burns and nobody says whether
/// the whole does. What nobody has analysed: doubt.
[[nodiscard]] Burns burnsOf(const Shop& shop, const std::string& contents);

/// Gas that burns in a cylinder of which nothing says whether it is rated for that: `contents.flammable`, a
/// caution that stays open until the rating is entered, or the gas is out. Common practice. Nothing where the
/// register says yes or no: flammableInside() judges that.
[[nodiscard]] std::optional<Finding> burningUnrated(const Shop& shop, const CylinderState& state);

} // namespace tarebook
