#include "core/shop/terms.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/quantity/decimal.h"
#include "core/shop/burning.h"
#include "core/shop/cylinder_past.h"
#include "core/shop/exchange_offer.h"
#include "core/shop/findings.h"
#include "core/shop/look_then_record.h"
#include "core/shop/names.h"

namespace tarebook {

namespace {

constexpr std::int64_t kMillion = 1'000'000;
constexpr std::int64_t kPartsPerPercent = 10'000;

Result<Party> reclaimerNamed(Shop& shop, const std::string& name) {
    std::vector<std::string> known;
    for (Party& party : parties(shop, "reclaimer")) {
        if (party.name == name) {
            return std::move(party);
        }
        known.push_back(party.name);
    }
    for (const Party& party : parties(shop, "destroyer")) {
        if (party.name == name) {
            return Error{fmt::format("{} is a destroyer, and terms are a reclaimer's", name),
                         "choose the cylinders that go there yourself"};
        }
    }
    return Error{fmt::format("there is no reclaimer {} on file", tarebook::quoted(name)),
                 "enter it first" + nearestName(name, known)};
}

Error about(const std::string& term, const Error& error) {
    return {fmt::format("{}: {}", term, error.wrong), error.right};
}

Result<std::int64_t> partsIn(std::string_view text) {
    const auto read = readNumber(trimmed(text));
    const std::string_view unit = read ? trimmed(read.value().rest) : std::string_view();
    const std::int64_t parts = read ? scaled(read.value().number, kPartsPerPercent, 1) : 0;
    if (!read || (unit != "%" && !unit.empty()) || parts < 1 || parts > kMillion) {
        return Error{fmt::format("{} is no share by mass", tarebook::quoted(text)),
                     "per cent of other refrigerants, above 0 and at most 100, as 2 %"};
    }
    return parts;
}

Result<Mass> minimumIn(const Shop& shop, const std::string& text) {
    auto mass = shop.display().readMass(text);
    if (mass && mass.value() <= Mass()) {
        return Error{"a minimum is above zero", "as 100 lb, or " + std::string(kNotKnown)};
    }
    return mass;
}

Result<Hundredths> feeIn(const std::string& text) {
    auto amount = parseMoney(text);
    if (amount && amount.value() < 0) {
        return Error{fmt::format("{} is below zero", tarebook::quoted(text)),
                     "a fee is what the reclaimer charges, as 25.00"};
    }
    return amount;
}

Result<std::string> currencyIn(const std::string& text) {
    constexpr std::size_t kLetters = 3;
    if (text.size() != kLetters ||
        !std::all_of(text.begin(), text.end(), [](char letter) { return letter >= 'A' && letter <= 'Z'; })) {
        return Error{fmt::format("{} is no currency", tarebook::quoted(text)),
                     "three capital letters as in ISO 4217, as USD"};
    }
    return text;
}

template <typename Value, typename Field>
Result<bool> keep(const std::string& term, const Result<Value>& read, Field& field) {
    if (!read) {
        return about(term, read.error());
    }
    field = read.value();
    return true;
}

/// `KIND=VALUE`: kept for the kind, or taken back.
template <typename Value>
Result<bool> keepOfKind(const std::string& term, const std::string& text, const char* example,
                        Result<Value> (*read)(std::string_view), std::map<GasKind, Value>& values) {
    const std::size_t equals = text.find('=');
    if (equals == std::string::npos) {
        return Error{fmt::format("{}: {} names no kind of gas", term, tarebook::quoted(text)),
                     fmt::format("as {}", example)};
    }
    const auto kind = gasKindFrom(text.substr(0, equals));
    if (!kind) {
        return about(term, kind.error());
    }
    const std::string value = tidied(text.substr(equals + 1));
    if (value == kNotKnown) {
        values.erase(kind.value());
        return true;
    }
    const auto its = read(value);
    if (!its) {
        return about(term, its.error());
    }
    values[kind.value()] = its.value();
    return true;
}

Result<bool> takeBack(const std::string& term, AcceptanceTerms& terms) {
    if (term == "minimum") {
        terms.minimum.reset();
    } else if (term == "mixed-from") {
        terms.mixedFrom.reset();
    } else if (term == "currency") {
        terms.currency.clear();
    } else if (term == "fee") {
        terms.fee.reset();
    } else {
        terms.feeEach.reset();
    }
    return true;
}

/// At or above a share of a million of other refrigerants than the main one; in whole milligrams.
bool holdsOthers(const Holding& content, std::int64_t parts) {
    std::int64_t most = 0;
    for (const auto& [refrigerant, milligrams] : content.byRefrigerant()) {
        most = std::max(most, milligrams);
    }
    const std::int64_t total = content.total().milligrams();
    return (total - most) * kMillion >= parts * total && total > most;
}

bool countsAsMixedFor(const Shop& shop, const Holding& content, const AcceptanceTerms& terms) {
    if (terms.mixedFrom) {
        return holdsOthers(content, *terms.mixedFrom);
    }
    const auto own = shop.settings().own.reclaimerShare;
    return own ? foreignShare(gasesIn(content)) > *own : isMixed(shop, content);
}

} // namespace

Result<AcceptanceTerms> termsOf(Shop& shop, const std::string& reclaimer) {
    const auto party = reclaimerNamed(shop, reclaimer);
    if (!party) {
        return party.error();
    }
    const auto record = shop.store().record("party", "reclaimer:" + reclaimer);
    if (!record) {
        return record.error();
    }
    if (!record.value() || !record.value()->body.contains("terms")) {
        return AcceptanceTerms();
    }
    return AcceptanceTerms::from(record.value()->body["terms"]);
}

Recorded setTerms(Shop& shop, const std::string& reclaimer, const AcceptanceTerms& terms,
                  const std::optional<AcceptanceTerms>& known) {
    return lookThenRecord(shop, [&]() -> Looked {
        const auto party = reclaimerNamed(shop, reclaimer);
        if (!party) {
            return refusedBy(party.error());
        }
        const auto before = termsOf(shop, reclaimer);
        const auto sound = AcceptanceTerms::from(terms.body());
        if (!before || !sound) {
            return refusedBy(before ? sound.error() : before.error());
        }
        if (known && *known != before.value()) {
            return refusedBy(Error{fmt::format("other terms of {} were entered meanwhile", reclaimer),
                                   "look at them, and enter again what is to be changed"});
        }
        Draft draft = draftOf(shop, party.value());
        draft.body["terms"] = terms.bodyAfter(before.value());
        return {{std::move(draft)}};
    });
}

Result<bool> readTerm(const Shop& shop, const std::string& term, const std::string& text,
                      AcceptanceTerms& terms) {
    if (term == "accept") {
        return keepOfKind<Acceptance>(term, text, "mixed=apart", acceptanceFrom, terms.accepts);
    }
    if (term == "price") {
        return keepOfKind<Price>(term, text, "clean=4.50/kg", Price::parse, terms.prices);
    }
    if (isExchangeTerm(term)) {
        return readExchangeTerm(term, text, terms.exchange);
    }
    const std::string value = tidied(text);
    if (value == kNotKnown) {
        return takeBack(term, terms);
    }
    if (term == "minimum") {
        return keep(term, minimumIn(shop, value), terms.minimum);
    }
    if (term == "mixed-from") {
        return keep(term, partsIn(value), terms.mixedFrom);
    }
    if (term == "currency") {
        return keep(term, currencyIn(value), terms.currency);
    }
    return keep(term, feeIn(value), term == "fee" ? terms.fee : terms.feeEach);
}

std::vector<std::pair<std::string, std::string>> termsLines(const Shop& shop, const AcceptanceTerms& terms) {
    const std::string none(kNotKnown);
    const auto money = [&](const std::optional<Hundredths>& amount) {
        return amount ? fmt::format("{} {}", moneyText(*amount), terms.currency) : none;
    };
    std::vector<std::pair<std::string, std::string>> lines = {
        {"minimum of a batch, net", terms.minimum ? shop.display().mass(*terms.minimum) : none},
        {"mixed from, by mass",
         terms.mixedFrom ? fmt::format("{:g} %", static_cast<double>(*terms.mixedFrom) / kPartsPerPercent)
                         : none},
        {"fee of a batch", money(terms.fee)},
        {"fee of a cylinder", money(terms.feeEach)}};
    for (auto& line : exchangeLines(shop.display(), terms)) {
        lines.push_back(std::move(line));
    }
    for (const GasKind kind : kGasKinds) {
        const auto acceptance = terms.accepts.find(kind);
        const auto price = terms.prices.find(kind);
        lines.emplace_back(
            std::string(gasKindWord(kind)),
            fmt::format("{}, price {}",
                        acceptance == terms.accepts.end() ? kNotKnown : acceptanceWord(acceptance->second),
                        price == terms.prices.end()
                            ? none
                            : fmt::format("{} {}/{}", moneyText(price->second.amount), terms.currency,
                                          price->second.perPound ? "lb" : "kg")));
    }
    return lines;
}

std::set<GasKind> kindsOf(const Shop& shop, const CylinderState& state, const AcceptanceTerms& terms) {
    std::set<GasKind> kinds;
    const bool unknown = state.content.byRefrigerant().contains(std::string(kUnknownGas));
    if (unknown) {
        kinds.insert(GasKind::unknown);
    }
    if (state.plate.burnOut) {
        kinds.insert(GasKind::burnOut);
    }
    const Burns burns = unknown ? Burns::no : burnsOf(shop, contentsText(state.content));
    if (burns == Burns::yes) {
        kinds.insert(GasKind::flammable);
    } else if (burns == Burns::doubt) {
        kinds.insert(GasKind::mixed);
    }
    if (!unknown && countsAsMixedFor(shop, state.content, terms)) {
        kinds.insert(GasKind::mixed);
    }
    return kinds.empty() ? std::set<GasKind>{GasKind::clean} : kinds;
}

GasKind pricedAs(const std::set<GasKind>& kinds) {
    const auto* const first =
        std::find_if(kGasKinds.begin(), kGasKinds.end(), [&](GasKind kind) { return kinds.contains(kind); });
    return first == kGasKinds.end() ? GasKind::clean : *first;
}

std::string kindsText(const std::set<GasKind>& kinds) {
    std::string text;
    for (const GasKind kind : kinds) {
        text += (text.empty() ? "" : " + ") + std::string(gasKindWord(kind));
    }
    return text;
}

} // namespace tarebook
