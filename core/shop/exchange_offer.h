#pragma once

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/ledger/acceptance.h"
#include "core/shop/card.h"

namespace tarebook {

/// The terms of an exchange that a person writes: `exchange` (`given`: an empty for a full one; `none`: the
/// same cylinder comes back emptied), `exchange-fee` (`12.00` for an empty, `0` is free), `exchange-owners`
/// (`own, reclaimer`, or `any`), `exchange-sizes` (`26.2 lb to 123 lb` of water, or `any`),
/// `exchange-retest` (`in date`: none without valid retest, or `any`).
[[nodiscard]] bool isExchangeTerm(const std::string& term);
/// Reads one of them into `terms`. `none`, or that it is not known, takes back the fee and the limits with
/// it. Error names the term.
[[nodiscard]] Result<bool> readExchangeTerm(const std::string& term, const std::string& text,
                                            ExchangeTerms& terms);
/// Each of them and what is entered for it, as a person writes it; the limits only where an empty is given.
[[nodiscard]] std::vector<std::pair<std::string, std::string>> exchangeLines(const Display& display,
                                                                             const AcceptanceTerms& terms);

/// Whether an empty is due for a cylinder that goes to a reclaimer full.
enum class ExchangeAnswer { notKnown, due, none };
struct ExchangeOffer {
    ExchangeAnswer answer = ExchangeAnswer::notKnown;
    std::string why = {}; // of none: `its retest was due 2025-10`
};
/// By these terms, on the day it goes.
[[nodiscard]] ExchangeOffer exchangeFor(const Shop& shop, const CylinderState& state,
                                        const AcceptanceTerms& terms, Date on);
/// `at 12.00 USD`, `free`, `for a fee that is not known`.
[[nodiscard]] std::string exchangePrice(const AcceptanceTerms& terms);
/// What the terms say of these cylinders that go together, in sentences; nothing where it is not known
/// whether empties are given.
[[nodiscard]] std::vector<std::string> exchangeSaid(const std::string& reclaimer,
                                                    const AcceptanceTerms& terms,
                                                    const std::map<std::string, ExchangeOffer>& offers);

} // namespace tarebook
