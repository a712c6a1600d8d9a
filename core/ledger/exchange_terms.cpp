#include "core/ledger/exchange_terms.h"

#include <algorithm>
#include <array>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/ledger/body_reader.h"

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

/// The truth of a field that may be missing.
std::optional<bool> truthIn(BodyReader& reader, const char* key) {
    const auto* its = reader.field(key);
    if (its == nullptr) {
        return std::nullopt;
    }
    if (!its->is_boolean()) {
        reader.refuse(key, "is neither true nor false");
        return std::nullopt;
    }
    return its->get<bool>();
}

Result<std::set<OwnerKind>> ownersIn(const nlohmann::json* list) {
    std::set<OwnerKind> owners;
    if (list == nullptr) {
        return owners;
    }
    if (!list->is_array()) {
        return Error{"terms.exchange.owners is no list", kExchangeFields};
    }
    for (const auto& word : *list) {
        const auto kind = ownerKindFrom(word.is_string() ? word.get<std::string>() : std::string());
        if (!kind) {
            return kind.error();
        }
        owners.insert(kind.value());
    }
    return owners;
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
    BodyReader reader(body, "terms.exchange.");
    ExchangeTerms terms;
    terms.given = truthIn(reader, "given");
    terms.inDate = truthIn(reader, "in_date").value_or(false);
    terms.fee = reader.optionalWhole("fee_hundredths", 0, kMostExchangeFee);
    for (const auto& [key, water] :
         {std::pair{"least_water_mg", &terms.leastWater}, std::pair{"most_water_mg", &terms.mostWater}}) {
        if (const auto milligrams = reader.optionalWhole(key, 1, kMostWater)) {
            *water = Mass::fromMilligrams(*milligrams);
        }
    }
    auto owners = ownersIn(reader.field("owners"));
    if (!reader.ok() || !owners) {
        return reader.ok() ? owners.error() : reader.error();
    }
    terms.owners = std::move(owners).value();
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
