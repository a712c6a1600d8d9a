#pragma once

#include <vector>

#include "core/store/database.h"
#include "core/store/store.h"

namespace tarebook {

/// Sums of [from, to) as the books stood at `head`. Opening and closing come from what the cylinders held,
/// the rest from the legs between them and the world, which are summed already for the books as they stand
/// now. Throws SqlFailure.
[[nodiscard]] std::vector<PeriodSum> periodSums(Database& database, Instant from, Instant to, Sequence head);

} // namespace tarebook
