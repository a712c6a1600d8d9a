#pragma once

#include <vector>

#include "core/shop/register.h"

namespace tarebook {

/// What the movements of a system leave open, subject `system:SITE/TAG`: gas that it is not for
/// (core/shop/charge_contents.h), gas that burns and came out of it though it is for none
/// (core/shop/recovery_contents.h), and used gas of somebody else (core/shop/charge_owner.h). The newest 256
/// movements are looked at.
[[nodiscard]] Result<std::vector<Finding>> openOnSystem(Shop& shop, const System& system);
/// The same of all systems.
[[nodiscard]] Result<std::vector<Finding>> openOnSystems(Shop& shop);

/// The number of the newest entry that overrules the rule for a subject and was not reversed; 0: none.
[[nodiscard]] Sequence newestOverruling(const Shop& shop, const std::string& subject,
                                        const std::string& rule);

} // namespace tarebook
