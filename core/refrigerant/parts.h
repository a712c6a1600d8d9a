#pragma once

#include <array>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/refrigerant/catalogue.h"
#include "core/refrigerant/peng_robinson.h"

namespace tarebook {

/// Contents as the model needs them: by mole, with their substances and pairs, in the order of designations
/// and without what is not there.
struct Parts {
    std::size_t count = 0;
    std::array<const Substance*, kMostSubstances> substances;
    Numbers moles;                                                    // fractions
    double molarMass = 0;                                             // kg/kmol
    std::array<const Pair*, kMostSubstances * kMostSubstances> pairs; // row * count + column
};

/// The catalogue must outlive the parts. Error: a substance without property data, more than kMostSubstances.
[[nodiscard]] Result<Parts> partsOf(const Catalogue& catalogue, const Contents& contents);

/// The mixture of Peng-Robinson with a(T) of each substance such that its own saturation pressure is met.
void mixtureAt(const Parts& parts, double kelvin, MixtureAt& mixture);

} // namespace tarebook
