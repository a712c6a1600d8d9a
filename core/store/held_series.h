#pragma once

#include <vector>

#include "core/store/database.h"
#include "core/store/store.h"

namespace tarebook {

/// What all cylinders together held just before each of the moments, which ascend; by refrigerant, in
/// milligrams, as the books stand now. Of all gas it is summed from what is kept of what crossed the border
/// of the cylinders, a stretch at a time; of one owner's, in a file of an older version, and where a moment
/// cuts a quarter of an hour, from the legs, each read once. Throws SqlFailure.
[[nodiscard]] std::vector<HeldMasses> heldSeries(Database& database, const std::vector<Instant>& moments,
                                                 const std::optional<std::string>& owner);

/// The sums of each stretch from one of the borders, which ascend, to the next, as the books stand now, and
/// in the same way; each begins with what the one before it ended with. Nothing of fewer than two borders.
/// Throws SqlFailure.
[[nodiscard]] std::vector<std::vector<PeriodSum>> periodSeries(Database& database,
                                                               const std::vector<Instant>& borders,
                                                               const std::optional<std::string>& owner);

/// Entries that happened in [from, to) and have a standing leg across the border of the cylinders with such
/// gas in it, ascending. Throws SqlFailure.
[[nodiscard]] std::vector<Sequence> entriesAcross(Database& database, Instant from, Instant to,
                                                  const GasWanted& gas);

} // namespace tarebook
