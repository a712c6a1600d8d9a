#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "core/shop/returns.h"
#include "core/shop/terms.h"

namespace tarebook {

/// What is paid for one cylinder of a batch by the terms on file.
struct SettledLine {
    std::string serial;
    Mass shipped; // by the books
    Mass received;
    Mass payable; // received less what they state to take off
    /// Of the contents as shipped; where their analysis says mixed, mixed too.
    std::set<GasKind> kinds;
    AnalysisResult result = AnalysisResult::notStated; // of their analysis
    /// Of the kind; none: not known. No terms are for gas that their analysis found impure or contaminated.
    std::optional<Price> price = {};
    std::optional<Hundredths> amount = {};
    /// Whether the kinds say what their analysis found, so that the price of one of them can be its price.
    [[nodiscard]] bool hasKind() const;
};
/// A batch in figures: three masses and the money.
struct Settlement {
    AcceptanceTerms terms;
    std::vector<SettledLine> lines; // of what was received
    Mass shipped;
    Mass received;
    Mass payable;
    std::size_t exchanged = 0; // empties that came in exchange
    /// Prices less the fees, those of exchanges too; none where the terms lack one of them.
    std::optional<Hundredths> credit;
    /// A sentence a step, with its numbers; the last is the credit.
    std::vector<std::string> working;
    /// As a `batch_settled` keeps it; null where the terms name no amount at all.
    [[nodiscard]] nlohmann::json body() const;
};

/// What a shipped batch sent, by cylinder and gas by gas, so that a difference is settled in the same
/// proportions; empty before it left.
[[nodiscard]] std::map<std::string, Holding> sentBy(Shop& shop, const Batch& batch);
/// By the terms on file now. A reclaimer that is not on file has none. `exchanged`: empties that came; by
/// default those that the receipt names. Error: no receipt yet, terms that cannot be read.
[[nodiscard]] Result<Settlement> settlementOf(Shop& shop, const Batch& batch,
                                              std::optional<std::size_t> exchanged = {});
/// The same working from prices that are known already: `A1: 12.0 lb clean at 4.50/kg = 24.49 USD`, the fees,
/// the sum.
[[nodiscard]] std::string priceWorking(const Display& display, const std::string& serial, Mass mass,
                                       const std::set<GasKind>& kinds, const AcceptanceTerms& terms);
/// The fees of so many cylinders, of which so many are exchanged, a sentence each; empty where the terms name
/// none and nothing is exchanged.
[[nodiscard]] std::vector<std::string> feeWorking(const AcceptanceTerms& terms, std::size_t cylinders,
                                                  std::size_t exchanged);

} // namespace tarebook
