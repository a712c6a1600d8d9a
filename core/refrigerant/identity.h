#pragma once

#include <optional>
#include <string>

#include "core/refrigerant/catalogue.h"
#include "core/refrigerant/contents.h"

namespace tarebook {

/// A refrigerant of the catalogue that contents can pass for.
struct Identity {
    std::string designation;     // as papers show it
    double largestDeviation = 0; // of a component from nominal, in points of mass per cent
    double foreignShare = 0;     // by mass, of substances that do not belong to it
};

/// The refrigerant whose components are all within its tolerance of the contents, the nearest when several
/// are, one of the standard before the shop's own; none otherwise. Tolerance of a blend's component: 2 points
/// of mass per cent, but never more than half the nominal share (common practice: most ASHRAE 34 formulation
/// tolerances lie at or below it). Foreign substances together: 0.5 % by mass (from memory: AHRI 700, other
/// volatile impurities).
[[nodiscard]] std::optional<Identity> identify(const Catalogue& catalogue, const Contents& contents);

} // namespace tarebook
