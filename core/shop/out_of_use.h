#pragma once

#include <optional>

#include "core/shop/register.h"

namespace tarebook {

/// That the equipment of a system was taken out of use for good.
struct OutOfUse {
    Date since;
    Sequence entry = 0; // the recovery
};
/// By the newest recovery from it that was entered as for its disposal, unless a later charge was entered as
/// that of a new installation under the same name. Nothing: it is in use, as far as the books know.
[[nodiscard]] Result<std::optional<OutOfUse>> outOfUse(Shop& shop, const System& system);

/// The same as a caution about the system, under the name of the rule: `charge.out-of-use` or
/// `plan.out-of-use`. Nothing where it is in use.
[[nodiscard]] std::optional<Finding> outOfUseFinding(Shop& shop, const System& system, const char* rule);

} // namespace tarebook
