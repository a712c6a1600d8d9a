#pragma once

#include "core/refrigerant/catalogue.h"
#include "core/rules/rulebook.h"

namespace tarebook {

/// The pressure class of an appliance by what is in it: `low`, `medium`, `high`, `very-high`.
struct AppliancePressure {
    std::string name;
    std::vector<std::string> working; // the saturation pressure against the bounds of the class
    RuleRow row;
};

/// By the bubble pressure at 104 degF (40 degC), or very-high where the critical temperature is below that
/// (appliance-pressure.csv). Says so where the model's uncertainty reaches another class. Error: no such
/// table, or a pressure that cannot be computed.
[[nodiscard]] Result<AppliancePressure> appliancePressure(const Rulebook& book, const Catalogue& catalogue,
                                                          const Contents& contents);

} // namespace tarebook
