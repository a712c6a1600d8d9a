#include "core/shop/exchange_offer.h"

#include <algorithm>
#include <array>
#include <set>
#include <string_view>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/base/text.h"
#include "core/shop/retest_of.h"
#include "core/shop/terms.h"

namespace tarebook {

namespace {

constexpr std::string_view kAny = "any";
constexpr std::string_view kInDate = "in date";
constexpr std::string_view kUpTo = " to ";
constexpr std::array<std::string_view, 5> kExchangeTerms = {"exchange", "exchange-fee", "exchange-owners",
                                                            "exchange-sizes", "exchange-retest"};

std::string ownersText(const std::set<OwnerKind>& owners) {
    std::string text;
    for (const OwnerKind kind : owners) {
        text += (text.empty() ? "" : ", ") + std::string(ownerKindWord(kind));
    }
    return text.empty() ? std::string(kAny) : text;
}

std::string sizesText(const Display& display, const ExchangeTerms& terms) {
    if (!terms.leastWater && !terms.mostWater) {
        return std::string(kAny);
    }
    if (!terms.mostWater) {
        return display.mass(*terms.leastWater) + " up";
    }
    return terms.leastWater
               ? fmt::format("{}{}{}", display.mass(*terms.leastWater), kUpTo, display.mass(*terms.mostWater))
               : "up" + std::string(kUpTo) + display.mass(*terms.mostWater);
}

Result<bool> readGiven(const std::string& value, ExchangeTerms& terms) {
    if (value == kNotKnown || value == "none") {
        terms = {};
        if (value == "none") {
            terms.given = false;
        }
        return true;
    }
    if (value != "given") {
        return Error{fmt::format("exchange: {} is no answer", tarebook::quoted(value)),
                     "given, none, or not known"};
    }
    terms.given = true;
    return true;
}

Result<bool> readExchangeFee(const std::string& value, ExchangeTerms& terms) {
    if (value == kNotKnown) {
        terms.fee.reset();
        return true;
    }
    const auto amount = parseMoney(value);
    if (!amount || amount.value() < 0) {
        return Error{amount ? fmt::format("exchange-fee: {} is below zero", tarebook::quoted(value))
                            : "exchange-fee: " + amount.error().wrong,
                     "what the reclaimer charges for an empty, as 12.00; 0 where it is free"};
    }
    terms.fee = amount.value();
    return true;
}

Result<bool> readOwnersGiven(const std::string& value, ExchangeTerms& terms) {
    std::set<OwnerKind> owners;
    if (value != kNotKnown && value != kAny) {
        for (const std::string& word : split(value, ',')) {
            const auto kind = ownerKindFrom(word);
            if (!kind) {
                return Error{"exchange-owners: " + kind.error().wrong, kind.error().right + ", or any"};
            }
            owners.insert(kind.value());
        }
    }
    terms.owners = std::move(owners);
    return true;
}

Result<bool> readSizes(const std::string& value, ExchangeTerms& terms) {
    const Error wrong{
        fmt::format("exchange-sizes: {} is no range of water capacities", tarebook::quoted(value)),
        "as 26.2 lb to 123 lb, 26.2 lb up, up to 123 lb, or any"};
    std::optional<Mass> least;
    std::optional<Mass> most;
    const auto read = [](std::string_view text, std::optional<Mass>& water) {
        const auto capacity = WaterCapacity::parse(trimmed(text));
        if (capacity) {
            water = capacity.value().water();
        }
        return capacity.ok();
    };
    if (value != kNotKnown && value != kAny) {
        const std::size_t between = value.find(kUpTo);
        const std::string first = between == std::string::npos ? value : value.substr(0, between);
        const bool upwards = between == std::string::npos && value.ends_with(" up");
        if (!upwards && between == std::string::npos) {
            return wrong;
        }
        if (trimmed(first) != "up" &&
            !read(upwards ? first.substr(0, first.size() - std::string_view(" up").size()) : first, least)) {
            return wrong;
        }
        if (!upwards && !read(value.substr(between + kUpTo.size()), most)) {
            return wrong;
        }
        if (least && most && *most < *least) {
            return wrong;
        }
    }
    terms.leastWater = least;
    terms.mostWater = most;
    return true;
}

Result<bool> readRetest(const std::string& value, ExchangeTerms& terms) {
    if (value != kInDate && value != kAny && value != kNotKnown) {
        return Error{fmt::format("exchange-retest: {} is no answer", tarebook::quoted(value)),
                     "in date, where none is given without valid retest, or any"};
    }
    terms.inDate = value == kInDate;
    return true;
}

} // namespace

bool isExchangeTerm(const std::string& term) {
    return std::find(kExchangeTerms.begin(), kExchangeTerms.end(), term) != kExchangeTerms.end();
}

Result<bool> readExchangeTerm(const std::string& term, const std::string& text, ExchangeTerms& terms) {
    const std::string value = lowered(tidied(text));
    if (term == "exchange") {
        return readGiven(value, terms);
    }
    if (term == "exchange-fee") {
        return readExchangeFee(value, terms);
    }
    if (term == "exchange-owners") {
        return readOwnersGiven(value, terms);
    }
    return term == "exchange-sizes" ? readSizes(value, terms) : readRetest(value, terms);
}

std::vector<std::pair<std::string, std::string>> exchangeLines(const Display& display,
                                                               const AcceptanceTerms& terms) {
    const ExchangeTerms& its = terms.exchange;
    const std::string none(kNotKnown);
    std::vector<std::pair<std::string, std::string>> lines = {
        {"empty in exchange", its.given ? *its.given ? "given" : "none" : none}};
    if (its.given == std::optional(true)) {
        lines.emplace_back("fee of an exchange",
                           !its.fee       ? none
                           : *its.fee > 0 ? fmt::format("{} {}", moneyText(*its.fee), terms.currency)
                                          : "0.00");
        lines.emplace_back("exchange, owners", ownersText(its.owners));
        lines.emplace_back("exchange, water capacity", sizesText(display, its));
        lines.emplace_back("exchange, retest", its.inDate ? kInDate : kAny);
    }
    return lines;
}

ExchangeOffer exchangeFor(const Shop& shop, const CylinderState& state, const AcceptanceTerms& terms,
                          Date on) {
    const ExchangeTerms& its = terms.exchange;
    if (!its.given) {
        return {};
    }
    if (!*its.given) {
        return {ExchangeAnswer::none, "the same cylinder comes back emptied"};
    }
    const Owner& owner = state.plate.owner;
    if (!its.owners.empty() && !its.owners.contains(owner.kind)) {
        return {ExchangeAnswer::none,
                owner.kind == OwnerKind::own
                    ? std::string("it is the shop's own")
                    : fmt::format("it belongs to {} ({})", owner.name, ownerKindWord(owner.kind))};
    }
    const Mass water = state.plate.waterCapacity.water();
    if ((its.leastWater && water < *its.leastWater) || (its.mostWater && water > *its.mostWater)) {
        const Display display = shop.display();
        return {ExchangeAnswer::none, fmt::format("its size is {} of water, theirs are {}",
                                                  display.mass(water), sizesText(display, its))};
    }
    if (its.inDate) {
        const auto retest = retestOf(shop, state, on);
        if (!retest || !retest.value().fillAllowed) {
            return {ExchangeAnswer::none, retest && retest.value().due
                                              ? "its retest was due " + retest.value().dueText()
                                              : std::string("it has no valid retest")};
        }
    }
    return {ExchangeAnswer::due};
}

std::string exchangePrice(const AcceptanceTerms& terms) {
    const auto& fee = terms.exchange.fee;
    if (!fee) {
        return "for a fee that is not known";
    }
    return *fee > 0 ? fmt::format("at {} {}", moneyText(*fee), terms.currency) : "free";
}

std::vector<std::string> exchangeSaid(const std::string& reclaimer, const AcceptanceTerms& terms,
                                      const std::map<std::string, ExchangeOffer>& offers) {
    std::vector<std::string> due;
    std::map<std::string, std::vector<std::string>> none; // by why
    for (const auto& [serial, offer] : offers) {
        if (offer.answer == ExchangeAnswer::due) {
            due.push_back(serial);
        } else if (offer.answer == ExchangeAnswer::none) {
            none[offer.why].push_back(serial);
        }
    }
    std::vector<std::string> sentences;
    if (!due.empty()) {
        sentences.push_back(fmt::format("{} gives an empty in exchange for {}, {}{}.", reclaimer,
                                        fmt::join(due, ", "), exchangePrice(terms),
                                        due.size() > 1 && terms.exchange.fee.value_or(0) > 0 ? " each" : ""));
    }
    for (const auto& [why, serials] : none) {
        sentences.push_back(fmt::format("{} gives no empty in exchange for {}: {}.", reclaimer,
                                        fmt::join(serials, ", "), why));
    }
    return sentences;
}

} // namespace tarebook
