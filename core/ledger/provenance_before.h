#pragma once

#include "core/ledger/provenance.h"

namespace tarebook {

/// As traceBackward(), of what the cylinder held when this entry was about to happen, whatever else has that
/// second.
[[nodiscard]] Result<BackwardTrace> traceBackwardBefore(LegReader& reader, const Account& cylinder,
                                                        Moment moment);

} // namespace tarebook
