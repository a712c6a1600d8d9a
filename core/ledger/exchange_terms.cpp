#include "core/ledger/exchange_terms.h"

#include <algorithm>
#include <array>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "core/base/text.h"

namespace tarebook {

namespace {

constexpr std::array<std::pair<OwnerKind, std::string_view>, 4> kOwnerWords = {
    {{OwnerKind::own, "own"},
     {OwnerKind::rented, "rented"},
     {OwnerKind::customer, "customer"},
     {OwnerKind::reclaimer, "reclaimer"}}};

constexpr std::int64_t kMostExchangeFee = 1'000'000; // 10,000.00, as of every amount of the terms
constexpr std::int64_t kMostWater = 1'360'777'110;   // milligrams: 3000 lb, as WaterCapacity
constexpr const char* kExchangeFields = "docs/journal.md has the fields of exchange";

/// A whole number within bounds, or nothing and why in `error`.
std::optional<std::int64_t> wholeIn(const nlohmann::json& body, const char* key, std::int64_t least,
                                    std::int64_t most, Error& error) {
    const auto place = body.find(key);
    if (place == body.end()) {
        return std::nullopt;
    }
    if (!place->is_number_integer() || place->get<std::int64_t>() < least ||
        place->get<std::int64_t>() > most) {
        error = {fmt::format("terms.exchange.{} is no whole number from {} to {}", key, least, most),
                 "leave it out where it is not known"};
        return std::nullopt;
    }
    return place->get<std::int64_t>();
}

/// The truth of a field that may be missing.
std::optional<bool> truthIn(const nlohmann::json& body, const char* key, Error& error) {
    const auto place = body.find(key);
    if (place == body.end()) {
        return std::nullopt;
    }
    if (!place->is_boolean()) {
        error = {fmt::format("terms.exchange.{} is neither true nor false", key), kExchangeFields};
        return std::nullopt;
    }
    return place->get<bool>();
}

void readOwners(const nlohmann::json& body, std::set<OwnerKind>& owners, Error& error) {
    const auto list = body.find("owners");
    if (list == body.end()) {
        return;
    }
    if (!list->is_array()) {
        error = {"terms.exchange.owners is no list", kExchangeFields};
        return;
    }
    for (const auto& word : *list) {
        const auto kind = ownerKindFrom(word.is_string() ? word.get<std::string>() : std::string());
        if (!kind) {
            error = kind.error();
            return;
        }
        owners.insert(kind.value());
    }
}

} // namespace

std::string_view ownerKindWord(OwnerKind kind) {
    const auto* const found = std::find_if(kOwnerWords.begin(), kOwnerWords.end(),
                                           [&](const auto& pair) { return pair.first == kind; });
    return found->second;
}

Result<OwnerKind> ownerKindFrom(std::string_view word) {
    const std::string plain = lowered(trimmed(word));
    for (const auto& [kind, its] : kOwnerWords) {
        if (its == plain) {
            return kind;
        }
    }
    return Error{fmt::format("{} is no kind of owner", tarebook::quoted(word)),
                 "one of own, rented, customer, reclaimer"};
}

nlohmann::json ExchangeTerms::body() const {
    nlohmann::json object = nlohmann::json::object();
    if (given) {
        object["given"] = *given;
    }
    if (fee) {
        object["fee_hundredths"] = *fee;
    }
    for (const OwnerKind kind : owners) {
        object["owners"].push_back(ownerKindWord(kind));
    }
    if (leastWater) {
        object["least_water_mg"] = leastWater->milligrams();
    }
    if (mostWater) {
        object["most_water_mg"] = mostWater->milligrams();
    }
    if (inDate) {
        object["in_date"] = true;
    }
    return object;
}

Result<ExchangeTerms> ExchangeTerms::from(const nlohmann::json& body) {
    if (!body.is_object()) {
        return Error{"terms.exchange is no object", kExchangeFields};
    }
    Error error;
    ExchangeTerms terms;
    terms.given = truthIn(body, "given", error);
    terms.inDate = truthIn(body, "in_date", error).value_or(false);
    terms.fee = wholeIn(body, "fee_hundredths", 0, kMostExchangeFee, error);
    for (const auto& [key, water] :
         {std::pair{"least_water_mg", &terms.leastWater}, std::pair{"most_water_mg", &terms.mostWater}}) {
        if (const auto milligrams = wholeIn(body, key, 1, kMostWater, error)) {
            *water = Mass::fromMilligrams(*milligrams);
        }
    }
    readOwners(body, terms.owners, error);
    if (!error.wrong.empty()) {
        return error;
    }
    if (terms.leastWater && terms.mostWater && *terms.mostWater < *terms.leastWater) {
        return Error{"terms.exchange: the largest size is below the smallest", "exchange the two"};
    }
    ExchangeTerms bare;
    bare.given = terms.given;
    if (terms.given != std::optional(true) && terms != bare) {
        return Error{"the terms name a fee or a limit of an exchange, but not that an empty is given",
                     "say that one is given, or take them back"};
    }
    return terms;
}

} // namespace tarebook
