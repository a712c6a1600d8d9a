#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/shop/counter.h"
#include "core/shop/register.h"

namespace tarebook {

/// `liquid`, `vapour`, `push-pull`; empty for a method that is not said.
[[nodiscard]] std::string_view methodWord(Method method);
/// All of these words.
[[nodiscard]] const std::vector<std::string>& methodWords();
/// Blank: not said. Error: no such method, names those that there are.
[[nodiscard]] Result<Method> readMethod(const std::string& text);

/// What common practice says of recovering by this method, from the table methods of the rulebook of that
/// day; nothing where it has none or no method is said. `plan.push-pull`: a system that holds no more than
/// its row says, or a heat pump, is refused, going by its full charge and kind of equipment on file; what the
/// register does not know is asked in a note. `plan.method`: a note with the steps.
[[nodiscard]] std::vector<Finding> methodFindings(const Shop& shop, const std::optional<System>& system,
                                                  const JobPlan& plan, Date on);

/// Push-pull into a cylinder that holds more than the row says, rule `plan.push-pull-start`: a refusal.
[[nodiscard]] std::optional<Finding> startFinding(const Shop& shop, const CylinderState& state, Method method,
                                                  Date on);

/// Push-pull into a cylinder without an overfill sensor on file, rule `plan.overfill-sensor`: a caution.
[[nodiscard]] std::optional<Finding> sensorFinding(const Shop& shop, const CylinderState& state,
                                                   Method method, Date on);

} // namespace tarebook
