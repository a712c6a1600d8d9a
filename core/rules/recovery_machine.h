#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/rules/contents_on_top.h"

namespace tarebook {

/// A recovery machine as the rules of contents see it.
struct MachinePast {
    std::string name;
    std::optional<bool> flammableRated; // none: nothing is on record
    std::string lastThrough;            // designation that it recovered last; empty: the books know of none
};

/// What the rules say of recovering a gas with a machine, its subject `machine:NAME`. Finding
/// `machine.flammable`: what burns through a machine that is not rated for it is refused, a caution where
/// nothing is on record. Finding `machine.clear`: it held another refrigerant last, or one of them is not
/// known; a caution, common practice. Nothing where all is well.
[[nodiscard]] std::vector<Finding> throughMachine(const ContentsRules& rules, const Catalogue& catalogue,
                                                  const MachinePast& machine, const IncomingGas& gas);

} // namespace tarebook
