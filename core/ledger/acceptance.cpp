#include "core/ledger/acceptance.h"

#include <algorithm>
#include <cstdlib>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/ledger/body_reader.h"

namespace tarebook {

namespace {

constexpr std::array<std::pair<GasKind, std::string_view>, kGasKinds.size()> kKindWords = {
    {{GasKind::unknown, "unknown"},
     {GasKind::burnOut, "burn-out"},
     {GasKind::flammable, "flammable"},
     {GasKind::mixed, "mixed"},
     {GasKind::clean, "clean"}}};
constexpr std::array<std::pair<Acceptance, std::string_view>, 3> kAcceptanceWords = {
    {{Acceptance::taken, "taken"}, {Acceptance::apart, "apart"}, {Acceptance::refused, "refused"}}};

constexpr std::int64_t kHundred = 100;
constexpr Hundredths kMostMoney = 1'000'000;                  // 10,000.00: more is a slip of the keys
constexpr std::int64_t kMillion = 1'000'000;                  // parts, and milligrams in a kilogram
constexpr std::int64_t kMostMilligrams = kMillion * kMillion; // 1000 t, as BodyReader
constexpr std::int64_t kPound = 45'359'237; // hundredths of a milligram, international pound of 1959
constexpr std::size_t kCurrencyLetters = 3;

template <typename Table, typename Value> std::string_view wordOf(const Table& table, Value value) {
    const auto* const found =
        std::find_if(table.begin(), table.end(), [&](const auto& pair) { return pair.first == value; });
    return found->second;
}

template <typename Value, typename Table>
Result<Value> valueOf(const Table& table, std::string_view word, const char* what) {
    std::string choices;
    for (const auto& [value, itsWord] : table) {
        if (itsWord == lowered(trimmed(word))) {
            return value;
        }
        choices += (choices.empty() ? "" : ", ") + std::string(itsWord);
    }
    return Error{fmt::format("{} is no {}", tarebook::quoted(word), what), "one of " + choices};
}

bool allDigits(std::string_view text) {
    return std::all_of(text.begin(), text.end(), [](char letter) { return letter >= '0' && letter <= '9'; });
}

Result<bool> readKind(const nlohmann::json& object, GasKind kind, AcceptanceTerms& terms) {
    if (!object.is_object()) {
        return Error{fmt::format("terms.kinds.{} is no object", gasKindWord(kind)), "docs/journal.md has it"};
    }
    if (const auto word = object.find("acceptance"); word != object.end()) {
        const auto acceptance = acceptanceFrom(word->is_string() ? word->get<std::string>() : std::string());
        if (!acceptance) {
            return acceptance.error();
        }
        terms.accepts[kind] = acceptance.value();
    }
    BodyReader reader(object, fmt::format("terms.kinds.{}.", gasKindWord(kind)));
    const auto amount = reader.optionalWhole("price_hundredths", -kMostMoney, kMostMoney);
    if (amount) {
        const std::string per = object.contains("per") && object["per"].is_string()
                                    ? object["per"].get<std::string>()
                                    : std::string();
        if (per != "kg" && per != "lb") {
            return Error{fmt::format("terms.kinds.{}.per is neither kg nor lb", gasKindWord(kind)),
                         "a price is for one of them"};
        }
        terms.prices[kind] = {*amount, per == "lb"};
    }
    return reader.ok() ? Result<bool>(true) : Result<bool>(reader.error());
}

/// Null for what stood there before and no longer does, as a merge patch has it (RFC 7396).
void addTakenBack(const nlohmann::json& before, nlohmann::json& now) {
    for (const auto& [key, value] : before.items()) {
        if (!now.contains(key)) {
            now[key] = nullptr;
        } else if (value.is_object() && now[key].is_object()) {
            addTakenBack(value, now[key]);
        }
    }
}

} // namespace

std::string_view gasKindWord(GasKind kind) {
    return wordOf(kKindWords, kind);
}

Result<GasKind> gasKindFrom(std::string_view word) {
    return valueOf<GasKind>(kKindWords, word, "kind of gas");
}

std::string_view acceptanceWord(Acceptance acceptance) {
    return wordOf(kAcceptanceWords, acceptance);
}

Result<Acceptance> acceptanceFrom(std::string_view word) {
    return valueOf<Acceptance>(kAcceptanceWords, word, "way of taking gas");
}

std::string moneyText(Hundredths amount) {
    return fmt::format("{}{}.{:02}", amount < 0 ? "-" : "", std::abs(amount) / kHundred,
                       std::abs(amount) % kHundred);
}

Result<Hundredths> parseMoney(std::string_view text) {
    const Error wrong{fmt::format("{} is no amount of money", tarebook::quoted(text)),
                      "a number with at most two decimals, up to 10000, as 4.50, or -3.00 for a charge"};
    std::string_view digits = trimmed(text);
    const bool minus = digits.starts_with('-');
    if (minus || digits.starts_with('+')) {
        digits.remove_prefix(1);
    }
    const std::size_t point = digits.find('.');
    const std::string_view whole = digits.substr(0, point);
    std::string decimals(point == std::string_view::npos ? std::string_view() : digits.substr(point + 1));
    constexpr std::size_t kMostDigits = 5;
    const bool bare = point != std::string_view::npos && decimals.empty();
    if (whole.empty() || whole.size() > kMostDigits || decimals.size() > 2 || bare || !allDigits(whole) ||
        !allDigits(decimals)) {
        return wrong;
    }
    decimals.resize(2, '0');
    const Hundredths amount = std::stoll(std::string(whole)) * kHundred + std::stoll(decimals);
    if (amount > kMostMoney) {
        return wrong;
    }
    return minus ? -amount : amount;
}

std::string Price::text() const {
    return moneyText(amount) + (perPound ? "/lb" : "/kg");
}

Result<Price> Price::parse(std::string_view text) {
    const std::size_t stroke = text.find('/');
    const std::string unit =
        stroke == std::string_view::npos ? std::string() : lowered(trimmed(text.substr(stroke + 1)));
    if (unit != "kg" && unit != "lb") {
        return Error{fmt::format("{} is no price", tarebook::quoted(text)),
                     "an amount for a kilogram or a pound, as 4.50/kg, or -2.00/lb for a charge"};
    }
    const auto amount = parseMoney(text.substr(0, stroke));
    if (!amount) {
        return amount.error();
    }
    return Price{amount.value(), unit == "lb"};
}

Hundredths Price::of(Mass mass) const {
    const std::int64_t unit = perPound ? kPound : kMillion;
    const std::int64_t parts = mass.milligrams() * (perPound ? kHundred : 1);
    const std::int64_t size = std::abs(amount);
    const Hundredths sum = size * (parts / unit) + (size * (parts % unit) * 2 + unit) / (2 * unit);
    return amount < 0 ? -sum : sum;
}

nlohmann::json AcceptanceTerms::body() const {
    nlohmann::json object = nlohmann::json::object();
    if (minimum) {
        object["minimum_mg"] = minimum->milligrams();
    }
    if (mixedFrom) {
        object["mixed_from_ppm"] = *mixedFrom;
    }
    if (!currency.empty()) {
        object["currency"] = currency;
    }
    if (fee) {
        object["fee_hundredths"] = *fee;
    }
    if (feeEach) {
        object["fee_each_hundredths"] = *feeEach;
    }
    for (const auto& [kind, acceptance] : accepts) {
        object["kinds"][std::string(gasKindWord(kind))]["acceptance"] = acceptanceWord(acceptance);
    }
    for (const auto& [kind, price] : prices) {
        nlohmann::json& its = object["kinds"][std::string(gasKindWord(kind))];
        its["price_hundredths"] = price.amount;
        its["per"] = price.perPound ? "lb" : "kg";
    }
    if (!exchange.empty()) {
        object["exchange"] = exchange.body();
    }
    return object;
}

nlohmann::json AcceptanceTerms::bodyAfter(const AcceptanceTerms& before) const {
    nlohmann::json now = body();
    addTakenBack(before.body(), now);
    return now;
}

Result<AcceptanceTerms> AcceptanceTerms::from(const nlohmann::json& written) {
    if (!written.is_object()) {
        return Error{"terms is no object", "docs/journal.md has its fields"};
    }
    nlohmann::json body = nlohmann::json::object();
    body.merge_patch(written); // leaves out what is null
    AcceptanceTerms terms;
    BodyReader reader(body, "terms.");
    if (const auto mass = reader.optionalWhole("minimum_mg", 1, kMostMilligrams)) {
        terms.minimum = Mass::fromMilligrams(*mass);
    }
    terms.mixedFrom = reader.optionalWhole("mixed_from_ppm", 1, kMillion);
    terms.fee = reader.optionalWhole("fee_hundredths", 0, kMostMoney);
    terms.feeEach = reader.optionalWhole("fee_each_hundredths", 0, kMostMoney);
    if (!reader.ok()) {
        return reader.error();
    }
    if (const auto word = body.find("currency"); word != body.end()) {
        terms.currency = word->is_string() ? word->get<std::string>() : std::string();
        if (terms.currency.size() != kCurrencyLetters ||
            !std::all_of(terms.currency.begin(), terms.currency.end(),
                         [](char letter) { return letter >= 'A' && letter <= 'Z'; })) {
            return Error{"terms.currency is no three capital letters", "the code of ISO 4217, as USD"};
        }
    }
    const auto kinds = body.find("kinds");
    if (kinds != body.end() && !kinds->is_object()) {
        return Error{"terms.kinds is no object", "docs/journal.md has its fields"};
    }
    for (const GasKind kind : kGasKinds) {
        if (kinds == body.end() || !kinds->contains(std::string(gasKindWord(kind)))) {
            continue;
        }
        const auto read = readKind((*kinds)[std::string(gasKindWord(kind))], kind, terms);
        if (!read) {
            return read.error();
        }
    }
    if (const auto its = body.find("exchange"); its != body.end()) {
        auto exchange = ExchangeTerms::from(*its);
        if (!exchange) {
            return exchange.error();
        }
        terms.exchange = std::move(exchange).value();
    }
    const bool money =
        terms.fee || terms.feeEach || terms.exchange.fee.value_or(0) > 0 || !terms.prices.empty();
    if (money && terms.currency.empty()) {
        return Error{"terms name amounts but no currency", "give the code of ISO 4217, as USD"};
    }
    if (terms.accepts.contains(GasKind::clean) && terms.accepts[GasKind::clean] == Acceptance::apart) {
        return Error{"clean gas is kept apart from nothing", "clean is taken or refused"};
    }
    return terms;
}

} // namespace tarebook
