#pragma once

#include <optional>
#include <vector>

#include "core/quantity/mass.h"
#include "core/rules/rulebook.h"

namespace tarebook {

/// Of which disposed appliances records are kept, and which (disposal-records.csv, 40 CFR 82.156).
struct DisposalScope {
    Mass over;                    // full charge above this
    Mass below;                   // and below this
    std::vector<RuleRow> records; // per appliance, month and transfer, with their fields

    /// Neither bound is included: 5.0 lb and 50.0 lb are outside.
    [[nodiscard]] bool contains(Mass fullCharge) const { return fullCharge > over && fullCharge < below; }
};

/// Nothing where the rulebook asks for no such records on its day. Error: a row that cannot be read.
[[nodiscard]] Result<std::optional<DisposalScope>> disposalScope(const Rulebook& book);

} // namespace tarebook
