#pragma once

#include <optional>
#include <string>

#include "core/quantity/mass.h"
#include "core/quantity/pressure.h"
#include "core/quantity/volume.h"
#include "core/rules/shipping_description.h"

namespace tarebook {

/// What is left in an emptied cylinder that was not cleaned, as far as it is known.
struct ResidueAsk {
    Contents contents;                     // what was last in it
    std::optional<Mass> left;              // by the books or the scale
    std::optional<Volume> volume;          // of the cylinder
    std::optional<GaugePressure> measured; // at 20 degC (68 degF), at rest
    std::string purgedWith = {};           // since it was evacuated, as `nitrogen`; empty: it was not
};

/// How such a cylinder travels.
struct ResidueVerdict {
    Finding finding;   // rule `transport.residue`
    bool free = false; // of the rules, once its marks and labels are taken off or covered
    std::string words; // what the paper says, or may say
};

/// By the pressure, never by the weight (residue.csv, 49 CFR 173.29): of a nonflammable gas below 200 kPa
/// gauge at 20 degC the rules let go. Without a measured pressure the most that the mass can give in the
/// volume is taken: an ideal gas, capped at the saturation pressure with the model's uncertainty; without
/// either it counts as full. What was evacuated and then purged with a gas that the rulebook counts (column
/// purged_with: inert ones) is free whatever was in it, 49 CFR 173.29(b)(2). `description` is that of the
/// contents. Error: the rulebook says nothing of residue.
[[nodiscard]] Result<ResidueVerdict> residue(const Rulebook& book, const Catalogue& catalogue,
                                             const ShippingDescription& description, const ResidueAsk& ask);

} // namespace tarebook
