#pragma once

#include <optional>
#include <vector>

#include "core/shop/returns.h"

namespace tarebook {

/// So many days after a batch was settled a failed analysis of it is still shown.
inline constexpr int kFailedAnalysisDays = 30;

/// Which cylinders of a batch failed the reclaimer's analysis, and what is behind each: whose gas, which
/// system, job and machine it came from, and where else gas of the same charges is now.
/// `batch.analysis-failed`, a caution: the same machine and system go on being used. Nothing where none
/// failed.
[[nodiscard]] std::optional<Finding> failedAnalysis(Shop& shop, const Batch& batch);
/// Those of batches that are received, or were settled at most kFailedAnalysisDays before the day. Error: the
/// books cannot be read.
[[nodiscard]] Result<std::vector<Finding>> failedAnalyses(Shop& shop, Date on);

} // namespace tarebook
