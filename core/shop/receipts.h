#pragma once

#include <string>
#include <vector>

#include "core/ledger/receipt_causes.h"
#include "core/shop/returns.h"

namespace tarebook {

/// What the receipt of a batch says against what was shipped, a line a cylinder of it that was received.
/// Likely causes as receiptDifferences(), within the shop's weighing tolerance. Error: no receipt yet.
[[nodiscard]] Result<std::vector<ReceiptDifference>> compareReceipt(Shop& shop, const Batch& batch);
/// The same for lines that are not entered yet.
[[nodiscard]] std::vector<ReceiptDifference> compareReceipt(Shop& shop, const Batch& batch,
                                                            const std::vector<ReceiptLine>& lines);

/// What the shop says to a line: accepted as it stands, disputed and why, or corrected to other weights.
struct ReceiptDecision {
    std::string serial;
    ReceiptVerdict verdict = ReceiptVerdict::accepted;
    std::string why = {};           // needed to dispute
    std::optional<Mass> gross = {}; // of a correction; without both the likeliest explanation's
    std::optional<Mass> tare = {};
};
/// Enters the decisions as another `batch_received` of these lines; what was entered before stays visible.
/// Not recorded: the batch is not received, no such line, one named twice, no reason, nothing to correct to,
/// weights that the cylinder cannot have (canWeigh()), or the batch has a newer entry than `looked`, the
/// newest that was looked at (0: as it stands).
[[nodiscard]] Recorded decideReceipt(Shop& shop, const std::string& name,
                                     const std::vector<ReceiptDecision>& decisions,
                                     std::optional<Instant> occurred = {}, Sequence looked = 0);
/// Enters the number of the certificate that came after the receipt, or after the batch was settled.
[[nodiscard]] Recorded fileCertificate(Shop& shop, const std::string& name, const std::string& certificate,
                                       std::optional<Instant> occurred = {});

/// Which lines differ beyond the weighing tolerance and have no decision, with the likeliest cause of each,
/// `batch.difference`; nothing where every one is accepted, disputed or corrected.
[[nodiscard]] std::optional<Finding> undecided(Shop& shop, const Batch& batch);

} // namespace tarebook
