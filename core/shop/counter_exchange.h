#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/shop/register.h"

namespace tarebook {

/// A cylinder that was given at the counter of a supplier or a reclaimer, and the one that came back for it.
struct CounterExchange {
    std::string out;   // serial of the one that was given
    std::string party; // `reclaimer:NAME`, `supplier:NAME`
    /// Its marks, and what was bought in it from the party: new or reclaimed gas, or nothing; then it is
    /// entered as evacuated. `source` and `occurred` are those of the exchange.
    NewCylinder came;
    bool ownerSaid = false; // whose it is was said; otherwise as the one that was given
    std::string reason = {};
    std::optional<Instant> occurred = {};
};

/// What is to be said before it is recorded.
struct ExchangeReview {
    /// What the law, the books and the terms on file have against it. It happened: none of them keeps it from
    /// being recorded, not even a refusal.
    std::vector<Finding> findings;
    std::optional<Error> impossible;  // why it cannot be recorded
    std::vector<std::string> entries; // what recording writes, in sentences
    std::string batch;                // the number under which what the old one holds goes to the reclaimer
};
/// Impossible: a serial that is not on the register, left the fleet, or is away with a batch; that of the new
/// one taken, or marks that cannot be; a moment in the future, or one after which the old one was still
/// filled, emptied, weighed, sent or handed to somebody; used gas that would go to a supplier (40 CFR
/// 82.154(d): only a reclaimer takes it), or be bought.
[[nodiscard]] ExchangeReview review(Shop& shop, const CounterExchange& exchange);

/// What came of it.
struct ExchangedAtCounter {
    Recorded recorded; // with the findings of the review before those of the cylinders
    std::string batch; // as ExchangeReview::batch
};
/// One step: the custody of the old one ends; what it holds by the books goes to the reclaimer as a batch of
/// this one cylinder, prepared and shipped, or, never used, back to the supplier; the new one is registered,
/// and what is in it bought; the old one leaves the fleet and its entry names both.
[[nodiscard]] ExchangedAtCounter exchangeAtCounter(Shop& shop, const CounterExchange& exchange);

} // namespace tarebook
