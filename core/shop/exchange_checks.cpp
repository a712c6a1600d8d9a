#include "core/shop/exchange_checks.h"

#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "core/shop/plan_rules.h"
#include "core/shop/register.h"
#include "core/shop/return_candidate.h"
#include "core/shop/terms.h"

namespace tarebook {

namespace {

constexpr const char* kByTerms = "the terms of the reclaimer, as the shop has entered them";

/// The terms of a reclaimer that may not be on file: then there are none.
Result<AcceptanceTerms> termsWhereKnown(Shop& shop, const std::string& reclaimer) {
    const auto record = shop.store().record("party", "reclaimer:" + reclaimer);
    if (!record) {
        return record.error();
    }
    return record.value() ? termsOf(shop, reclaimer) : Result<AcceptanceTerms>(AcceptanceTerms());
}

/// The entry by which it left, 0 where it has not.
Sequence leftBy(Shop& shop, const Batch& batch) {
    for (const Sequence seq : batch.entries) {
        const auto entry = shop.store().entry(seq);
        if (entry && entry.value().kind == EntryKind::batchShipped) {
            return seq;
        }
    }
    return 0;
}

Finding unforeseenEmpty(const Batch& batch, const std::string& serial, const std::string& empty,
                        const ExchangeOffer& offer) {
    Finding finding = planFinding(
        "batch:" + batch.name, "batch.exchange-unforeseen", Severity::caution,
        fmt::format(
            "{} came in exchange for {}, but {}.", empty, serial,
            offer.answer == ExchangeAnswer::none
                ? fmt::format("by the terms of {} none is due: {}", batch.reclaimer, offer.why)
                : fmt::format("whether {} gives empties, and at what fee, is not known", batch.reclaimer)),
        offer.answer == ExchangeAnswer::none
            ? "Ask what it costs; accept the line once it is agreed, or dispute it."
            : "Ask what it costs and enter it among the terms, or accept the line as it stands.");
    finding.citation = kByTerms;
    return finding;
}

Finding missingEmpty(const Batch& batch, const AcceptanceTerms& terms, const std::string& serial,
                     const std::string& named) {
    Finding finding = planFinding(
        "batch:" + batch.name, "batch.exchange-missing", Severity::caution,
        named.empty() ? fmt::format("No empty is named for {}: by its terms {} gives one in exchange, {}.",
                                    serial, batch.reclaimer, exchangePrice(terms))
                      : fmt::format("The receipt names {} for {}; it is not settled as come.", named, serial),
        named.empty() ? "Ask for the empty; accept the line where the cylinder itself comes back."
                      : "Ask where the empty is, and register it when it comes.");
    finding.citation = kByTerms;
    return finding;
}

} // namespace

Result<std::map<std::string, ExchangeOffer>> offersFor(Shop& shop, const Batch& batch) {
    const auto terms = termsWhereKnown(shop, batch.reclaimer);
    if (!terms) {
        return terms.error();
    }
    const Sequence left = leftBy(shop, batch);
    const Date on = batch.shipped ? shop.zone().dateOf(*batch.shipped) : shop.today();
    std::map<std::string, ExchangeOffer> offers;
    for (const BatchLine& line : batch.lines) {
        if (line.empty()) {
            continue;
        }
        const auto state =
            left == 0 ? shop.store().cylinder(line.serial) : shop.store().cylinderAt(line.serial, left);
        if (!state) {
            return state.error();
        }
        if (state.value()) {
            offers[line.serial] = exchangeFor(shop, *state.value(), terms.value(), on);
        }
    }
    return offers;
}

std::vector<std::string> exchangeSaid(Shop& shop, const Batch& batch) {
    const auto terms = termsWhereKnown(shop, batch.reclaimer);
    const auto offers = offersFor(shop, batch);
    return terms && offers ? exchangeSaid(batch.reclaimer, terms.value(), offers.value())
                           : std::vector<std::string>();
}

std::vector<std::string> exchangeOnCard(Shop& shop, const CylinderState& state) {
    const std::string& serial = state.plate.serial;
    const bool away = state.condition == Condition::away && !state.batch.empty();
    std::vector<std::string> sentences;
    if (away) {
        const auto its = batch(shop, state.batch);
        const auto offers =
            its ? offersFor(shop, its.value()) : Result<std::map<std::string, ExchangeOffer>>(Error{});
        const auto terms =
            its ? termsWhereKnown(shop, its.value().reclaimer) : Result<AcceptanceTerms>(Error{});
        if (!offers || !terms || !offers.value().contains(serial)) {
            return sentences;
        }
        const ExchangeOffer& offer = offers.value().at(serial);
        if (offer.answer == ExchangeAnswer::due) {
            sentences.push_back(fmt::format("With {}: an empty is due in exchange, {}, unless it comes back.",
                                            its.value().reclaimer, exchangePrice(terms.value())));
        } else if (offer.answer == ExchangeAnswer::none) {
            sentences.push_back(fmt::format("With {}: it comes back, no empty is due in exchange: {}.",
                                            its.value().reclaimer, offer.why));
        }
        return sentences;
    }
    if (!holdsUsedGas(state.content) || state.condition == Condition::retired) {
        return sentences;
    }
    for (const Party& party : parties(shop, "reclaimer")) {
        const auto terms = termsOf(shop, party.name);
        if (terms) {
            for (std::string& said :
                 exchangeSaid(party.name, terms.value(),
                              {{serial, exchangeFor(shop, state, terms.value(), shop.today())}})) {
                sentences.push_back(std::move(said));
            }
        }
    }
    return sentences;
}

std::vector<Finding> exchangeFindings(Shop& shop, const Batch& batch) {
    std::vector<Finding> findings;
    if (batch.status != "received") {
        return findings;
    }
    const auto terms = termsWhereKnown(shop, batch.reclaimer);
    const auto offers = offersFor(shop, batch);
    if (!terms || !offers) {
        return findings;
    }
    for (const BatchLine& line : batch.lines) {
        const auto offer = offers.value().find(line.serial);
        if (!line.receipt || line.receipt->verdict != ReceiptVerdict::open || offer == offers.value().end()) {
            continue;
        }
        const bool due = offer->second.answer == ExchangeAnswer::due;
        const std::string& named = line.receipt->exchange;
        const auto now = shop.store().cylinder(line.serial);
        const bool back = now && now.value() && now.value()->condition != Condition::away;
        if (!named.empty() && !due) {
            findings.push_back(unforeseenEmpty(batch, line.serial, named, offer->second));
        } else if (named.empty() && due && !back) {
            findings.push_back(missingEmpty(batch, terms.value(), line.serial, named));
        }
    }
    return findings;
}

std::vector<Finding> exchangeFindings(Shop& shop, const Batch& batch, const std::vector<std::string>& gone,
                                      const std::map<std::string, std::string>& came) {
    std::vector<Finding> findings;
    const auto terms = termsWhereKnown(shop, batch.reclaimer);
    const auto offers = offersFor(shop, batch);
    if (!terms || !offers) {
        return findings;
    }
    for (const BatchLine& line : batch.lines) {
        const auto offer = offers.value().find(line.serial);
        if (offer == offers.value().end()) {
            continue;
        }
        const bool due = offer->second.answer == ExchangeAnswer::due;
        const bool stays = std::find(gone.begin(), gone.end(), line.serial) != gone.end();
        const auto empty = came.find(line.serial);
        const std::string named = line.receipt ? line.receipt->exchange : std::string();
        if (empty != came.end() && !due) {
            findings.push_back(unforeseenEmpty(batch, line.serial, empty->second, offer->second));
            findings.back().remedy = "Ask what it costs, and enter it among the terms.";
        } else if (empty == came.end() && ((stays && due) || !named.empty())) {
            findings.push_back(missingEmpty(batch, terms.value(), line.serial, named));
        }
    }
    return findings;
}

} // namespace tarebook
