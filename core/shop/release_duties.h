#pragma once

#include <string_view>

#include "core/shop/card.h"

namespace tarebook {

/// Cites the rulebook's own row of a duty (`reuse`, `venting`, ...; the table duties) in a finding, where it
/// has one for such contents, and adds what the row asks to the working; unknown contents count as
/// halogenated. False when the rulebook asks nothing: the finding stays as it is.
bool citeDuty(const Shop& shop, const Holding& content, std::string_view subject, Finding& finding);

/// Cites a row of the table duties in a finding, and adds what it asks to the working.
void citeRow(const Rulebook& book, const RuleRow& row, Finding& finding);

/// What was released to the air, rule `release.venting`: a refusal, or a note where the rulebook exempts such
/// gas in any use.
[[nodiscard]] Finding releaseFinding(const Shop& shop, const CylinderState& state, Mass mass);

} // namespace tarebook
