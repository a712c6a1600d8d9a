#include "core/shop/open_receipts.h"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/shop/exchange_checks.h"
#include "core/shop/plan_rules.h"
#include "core/shop/receipts.h"

namespace tarebook {

std::optional<Finding> disputed(const Batch& batch) {
    std::vector<std::string> working;
    for (const BatchLine& line : batch.lines) {
        if (line.receipt && line.receipt->verdict == ReceiptVerdict::disputed) {
            working.push_back(fmt::format("{}: {}", line.serial, line.receipt->why));
        }
    }
    if (working.empty()) {
        return std::nullopt;
    }
    Finding finding =
        planFinding("batch:" + batch.name, "batch.disputed", Severity::caution,
                    fmt::format("Disputed with {}: {}.", batch.reclaimer, fmt::join(working, "; ")),
                    "Agree on the weights with the reclaimer, then accept or correct the lines.");
    finding.citation = "the shop's own decision on the receipt";
    finding.working = std::move(working);
    return finding;
}

std::optional<Finding> partlyReceived(Shop& shop, const Batch& batch, Date on) {
    const auto missing = batch.unreceived();
    if (missing.empty() || !batch.shipped) {
        return std::nullopt;
    }
    const int days = on.dayNumber() - shop.zone().dateOf(*batch.shipped).dayNumber();
    const int most = shop.settings().receiptDays;
    if (days <= most) {
        return std::nullopt;
    }
    Finding finding =
        planFinding("batch:" + batch.name, "batch.no-receipt", Severity::caution,
                    fmt::format("{} of {} cylinders {} no line on a receipt, shipped to {} {} days ago.",
                                missing.size(), batch.lines.size() - batch.empties(),
                                missing.size() == 1 ? "has" : "have", batch.reclaimer, days),
                    "Ask the reclaimer for the rest of the receipt and enter it.");
    finding.citation = fmt::format("the shop's own setting: {} days", most);
    for (const BatchLine& line : batch.lines) {
        if (std::find(missing.begin(), missing.end(), line.serial) != missing.end()) {
            finding.working.push_back(fmt::format("{}: {} of {} shipped", line.serial,
                                                  shop.display().mass(line.net), line.content));
        }
    }
    return finding;
}

Result<std::vector<Finding>> openReceipts(Shop& shop, Date on) {
    // Of the batches only those that are neither on their way nor settled: few, so each is read.
    const auto received =
        shop.store().recordMoments("batch", "status", std::string(entryKindWord(EntryKind::batchReceived)));
    if (!received) {
        return received.error();
    }
    std::vector<Finding> findings;
    for (const auto& [name, moment] : received.value()) {
        const auto its = batch(shop, name);
        if (!its) {
            return its.error();
        }
        for (auto& finding :
             {disputed(its.value()), undecided(shop, its.value()), partlyReceived(shop, its.value(), on)}) {
            if (finding) {
                findings.push_back(*finding);
            }
        }
        for (Finding& finding : exchangeFindings(shop, its.value())) {
            findings.push_back(std::move(finding));
        }
    }
    return findings;
}

} // namespace tarebook
