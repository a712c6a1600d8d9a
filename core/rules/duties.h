#pragma once

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "core/refrigerant/catalogue.h"
#include "core/rules/rulebook.h"

namespace tarebook {

/// What the law asks of whoever holds, moves or passes on such contents: a note for each row of duties.csv
/// that holds for their kind, in the order of the table: release, reuse, sale, cylinders made for one
/// filling, records. The rule of a finding is `duty.` and the row's subject. Error: the rulebook has no such
/// table, or a row of it cannot be read.
[[nodiscard]] Result<std::vector<Finding>> dutiesOf(const Rulebook& book, const Catalogue& catalogue,
                                                    const Contents& contents);

/// The row of one subject that holds for contents of these kinds (gasKinds()), whatever their potential;
/// nullptr where the rulebook asks nothing.
[[nodiscard]] const RuleRow* dutyRow(const Rulebook& book, std::string_view subject,
                                     const std::set<std::string>& kinds);

/// What goes with dangerous goods on the road outside any relief, from carriage-duties.csv: the carrier is
/// the shipper itself, or another. Empty where the rulebook says nothing.
[[nodiscard]] std::vector<Finding> carriageDuties(const Rulebook& book, bool ownCarrier);

} // namespace tarebook
