#pragma once

#include <optional>

#include "core/shop/register.h"

namespace tarebook {

/// Whether a technician's certificate on file is for a system's pressure class (core/rules/technician.h).
/// Nothing where it is, or where nobody can tell: another rulebook, a refrigerant whose pressure is not
/// known.
[[nodiscard]] std::optional<Finding> technicianFinding(const Shop& shop, const Person& person,
                                                       const System& system);

} // namespace tarebook
