#pragma once

#include <optional>
#include <vector>

#include "core/shop/register.h"

namespace tarebook {

/// Whether a technician's certificate on file is for a system's pressure class (core/rules/technician.h).
/// Nothing where it is, or where nobody can tell: another rulebook, a refrigerant whose pressure is not
/// known.
[[nodiscard]] std::optional<Finding> technicianFinding(const Shop& shop, const Person& person,
                                                       const System& system);
/// What speaks against handing refrigerant work of that day to a person of the register: a certificate that
/// has run out by then (`plan.certificate`, a caution), and technicianFinding() where the system, SITE/TAG,
/// is on file.
[[nodiscard]] std::vector<Finding> technicianFindings(Shop& shop, const Person& person,
                                                      const std::string& system, Date on);

} // namespace tarebook
