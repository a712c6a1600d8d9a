#pragma once

#include <optional>
#include <vector>

#include "core/shop/returns.h"

namespace tarebook {

/// Which lines are disputed and why, `batch.disputed`; nothing where none is.
[[nodiscard]] std::optional<Finding> disputed(const Batch& batch);

/// Of a batch received in part: which cylinders have no line on a receipt, `batch.no-receipt`, once more days
/// have gone since it was shipped than the shop's `receipt_days`. Nothing where each has its line.
[[nodiscard]] std::optional<Finding> partlyReceived(Shop& shop, const Batch& batch, Date on);

/// What stays open on a day of the batches that are received and not settled: lines that are disputed, that
/// differ and are not decided, that never came, and exchanges that the terms and the receipt do not agree
/// about.
[[nodiscard]] Result<std::vector<Finding>> openReceipts(Shop& shop, Date on);

} // namespace tarebook
