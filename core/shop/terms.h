#pragma once

#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "core/ledger/acceptance.h"
#include "core/shop/card.h"

namespace tarebook {

/// What stands for a term that nobody has entered; typed, it takes one back.
inline constexpr std::string_view kNotKnown = "not known";

/// The terms of a reclaimer on file; empty where none were entered. Error: no reclaimer of that name on file,
/// with the nearest; terms that cannot be read.
[[nodiscard]] Result<AcceptanceTerms> termsOf(Shop& shop, const std::string& reclaimer);
/// Puts these in the place of the terms on file: a `party_set` with the reclaimer as it is. `known`: the
/// terms that were changed. Not recorded: no reclaimer of that name, terms that do not hold together, or
/// `known` is no longer on file: another desk's terms would be lost.
[[nodiscard]] Recorded setTerms(Shop& shop, const std::string& reclaimer, const AcceptanceTerms& terms,
                                const std::optional<AcceptanceTerms>& known = {});

/// Reads one term as a person writes it into `terms`: `minimum` (`100 lb`, the shop's unit for a bare
/// number), `mixed-from` (`2 %` by mass), `currency` (`USD`), `fee` and `fee-each` (`25.00`), `accept`
/// (`mixed=apart`), `price` (`clean=4.50/kg`), and those of readExchangeTerm(). kNotKnown takes the term
/// back. Error names the term.
[[nodiscard]] Result<bool> readTerm(const Shop& shop, const std::string& term, const std::string& text,
                                    AcceptanceTerms& terms);
/// Each term and what is entered for it, or that it is not known; in a fixed order.
[[nodiscard]] std::vector<std::pair<std::string, std::string>> termsLines(const Shop& shop,
                                                                          const AcceptanceTerms& terms);

/// Of which kinds the contents are by these terms. Mixed from the terms' share of other refrigerants on;
/// where they name none, above the shop's own `reclaimer_mixed_above`; without that, by the figure of the
/// rulebook. Burn-out: the cylinder is kept for such gas. Flammable: Division 2.1 on the road, as the papers
/// of the batch have it (burnsOf() in core/shop/burning.h); in doubt it counts as mixed. None of them: clean.
[[nodiscard]] std::set<GasKind> kindsOf(const Shop& shop, const CylinderState& state,
                                        const AcceptanceTerms& terms);
/// By which of the kinds a price is found: the first that is in it of unknown, burn-out, flammable, mixed,
/// clean.
[[nodiscard]] GasKind pricedAs(const std::set<GasKind>& kinds);
/// `flammable + mixed`; nothing for none.
[[nodiscard]] std::string kindsText(const std::set<GasKind>& kinds);

} // namespace tarebook
