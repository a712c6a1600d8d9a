#pragma once

#include "core/ledger/posting.h"

namespace tarebook {

/// What the cylinder holds after the leg, which it must be one of the two ends of.
[[nodiscard]] Holding heldAfter(const Leg& leg, const Account& cylinder);

} // namespace tarebook
