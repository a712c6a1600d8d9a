#pragma once

#include <optional>
#include <vector>

#include "core/shop/system_then.h"

namespace tarebook {

/// A recovery entered as another refrigerant than the system is for: rule `recovery.contents`, a caution; a
/// danger where it burns and the system's own gas does not, as the way in is.
[[nodiscard]] std::optional<Finding> recoveryFinding(const Shop& shop, const System& system,
                                                     const std::string& refrigerant);

/// Of the movements of a system, newest first, the gas that burns and came out of it though it is for none
/// and by the books none had gone in: the danger stays open, for what is left inside. A gas that the system
/// was for on its day, or is for now, is none; nor is what an entry up to `settled` brought.
[[nodiscard]] std::optional<Finding> openRecovery(Shop& shop, SystemThen& its, const std::vector<Leg>& legs,
                                                  Sequence settled);

} // namespace tarebook
