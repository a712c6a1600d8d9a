#pragma once

#include <optional>
#include <vector>

#include "core/shop/system_then.h"

namespace tarebook {

/// Used gas of somebody else that went into a system: rule `release.owner`, a refusal about the system. It
/// names what whoever owned it has lost and in whose equipment it is now. `serial`: of the cylinder that it
/// comes from, whose lots are named then; empty: not. Nothing where all of it was the owner's, new or
/// reclaimed.
[[nodiscard]] std::optional<Finding> ownerFinding(Shop& shop, const System& system, const Holding& moved,
                                                  const std::string& serial);

/// The same of the movements of a system, of entries after `settled`: open until a reason settles it or the
/// charge is reversed. Gas of whoever owned the site on that day, or owns it now, is none.
[[nodiscard]] std::optional<Finding> openOwner(Shop& shop, SystemThen& its, const std::vector<Leg>& legs,
                                               Sequence settled);

} // namespace tarebook
