#include "core/shop/settlement.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/shop/came_for.h"
#include "core/shop/names.h"

namespace tarebook {

namespace {

std::optional<Entry> shippedEntry(Shop& shop, const Batch& batch) {
    for (const Sequence seq : batch.entries) {
        auto entry = shop.store().entry(seq);
        if (entry && entry.value().kind == EntryKind::batchShipped) {
            return std::move(entry).value();
        }
    }
    return std::nullopt;
}

/// Of which kinds it was when it left; their own analysis may make it mixed.
std::set<GasKind> kindsAsShipped(Shop& shop, const BatchLine& line, Sequence shipped, const Holding& sent,
                                 const AcceptanceTerms& terms) {
    std::set<GasKind> kinds = {GasKind::clean};
    const auto state = shop.store().cylinderAt(line.serial, shipped);
    if (state && state.value()) {
        CylinderState full = *state.value();
        full.content = sent;
        kinds = kindsOf(shop, full, terms);
    }
    if (line.receipt->result == AnalysisResult::mixed) {
        kinds.erase(GasKind::clean);
        kinds.insert(GasKind::mixed);
    }
    return kinds;
}

std::string amountText(Hundredths amount, const AcceptanceTerms& terms) {
    return fmt::format("{} {}", moneyText(amount), terms.currency);
}

void addWorking(const Display& display, Settlement& its) {
    for (const SettledLine& line : its.lines) {
        its.working.push_back(
            line.hasKind() ? priceWorking(display, line.serial, line.payable, line.kinds, its.terms)
                           : fmt::format("{}: {} {} as shipped, {} by their analysis, price {}", line.serial,
                                         display.mass(line.payable), gasKindWord(pricedAs(line.kinds)),
                                         analysisResultWord(line.result), kNotKnown));
    }
    for (std::string& step : feeWorking(its.terms, its.lines.size(), its.exchanged)) {
        its.working.push_back(std::move(step));
    }
    its.working.push_back(
        fmt::format("credit after fees {}", its.credit ? amountText(*its.credit, its.terms) : kNotKnown));
}

} // namespace

std::string priceWorking(const Display& display, const std::string& serial, Mass mass,
                         const std::set<GasKind>& kinds, const AcceptanceTerms& terms) {
    const auto price = terms.prices.find(pricedAs(kinds));
    const std::string what =
        fmt::format("{}: {} {}", serial, display.mass(mass), gasKindWord(pricedAs(kinds)));
    return price == terms.prices.end() ? fmt::format("{}, price {}", what, kNotKnown)
                                       : fmt::format("{} at {} = {}", what, price->second.text(),
                                                     amountText(price->second.of(mass), terms));
}

std::vector<std::string> feeWorking(const AcceptanceTerms& terms, std::size_t cylinders,
                                    std::size_t exchanged) {
    std::vector<std::string> steps;
    if (terms.fee) {
        steps.push_back(fmt::format("fee of the batch {}", amountText(-*terms.fee, terms)));
    }
    if (terms.feeEach) {
        steps.push_back(fmt::format("fee of {} cylinder{} at {} = {}", cylinders, cylinders == 1 ? "" : "s",
                                    moneyText(*terms.feeEach),
                                    amountText(-*terms.feeEach * static_cast<Hundredths>(cylinders), terms)));
    }
    if (exchanged > 0) {
        const std::string empties =
            fmt::format("{} {} in exchange", exchanged, exchanged == 1 ? "empty" : "empties");
        const auto& fee = terms.exchange.fee;
        steps.push_back(!fee ? fmt::format("{}, fee {}", empties, kNotKnown)
                        : *fee == 0
                            ? empties + ", free"
                            : fmt::format("{} at {} = {}", empties, moneyText(*fee),
                                          amountText(-*fee * static_cast<Hundredths>(exchanged), terms)));
    }
    return steps;
}

bool SettledLine::hasKind() const {
    return !failed(result) || result == AnalysisResult::mixed;
}

nlohmann::json Settlement::body() const {
    if (terms.currency.empty()) {
        return {};
    }
    nlohmann::json object{{"currency", terms.currency}, {"lines", nlohmann::json::array()}};
    for (const SettledLine& line : lines) {
        nlohmann::json its{{"serial", line.serial},
                           {"kind", gasKindWord(pricedAs(line.kinds))},
                           {"payable_mg", line.payable.milligrams()}};
        if (line.price) {
            its["price_hundredths"] = line.price->amount;
            its["per"] = line.price->perPound ? "lb" : "kg";
            its["amount_hundredths"] = *line.amount;
        }
        object["lines"].push_back(std::move(its));
    }
    if (terms.fee) {
        object["fee_hundredths"] = *terms.fee;
    }
    if (terms.feeEach) {
        object["fee_each_hundredths"] = *terms.feeEach;
    }
    if (exchanged > 0) {
        object["exchanged"] = exchanged;
        if (terms.exchange.fee) {
            object["fee_exchange_hundredths"] = *terms.exchange.fee;
        }
    }
    if (credit) {
        object["credit_hundredths"] = *credit;
    }
    return object;
}

std::map<std::string, Holding> sentBy(Shop& shop, const Batch& batch) {
    std::map<std::string, Holding> sent;
    const auto shipped = shippedEntry(shop, batch);
    if (!shipped) {
        return sent;
    }
    const auto legs = shop.store().legReader()->ofEntry(shipped->seq);
    for (const Leg& leg : legs ? legs.value() : std::vector<Leg>()) {
        if (leg.cause == LegCause::movement && leg.source.kind == AccountKind::cylinder) {
            sent[leg.source.name].add(leg.moved);
        }
    }
    return sent;
}

Result<Settlement> settlementOf(Shop& shop, const Batch& batch, std::optional<std::size_t> exchanged) {
    const auto shipped = shippedEntry(shop, batch);
    const auto sent = sentBy(shop, batch);
    Settlement its;
    if (const auto record = shop.store().record("party", "reclaimer:" + batch.reclaimer);
        record && record.value()) {
        auto terms = termsOf(shop, batch.reclaimer);
        if (!terms) {
            return terms.error();
        }
        its.terms = std::move(terms).value();
    }
    std::int64_t sums[3] = {};
    Hundredths credit = 0;
    its.exchanged = exchanged.value_or(static_cast<std::size_t>(
        std::count_if(batch.lines.begin(), batch.lines.end(), [&shop](const BatchLine& line) {
            const auto left = leftAtCounter(shop, line.serial);
            return (line.receipt && !line.receipt->exchange.empty()) ||
                   (left && left.value() && left.value()->empty);
        })));
    bool known =
        its.terms.fee && its.terms.feeEach && (its.exchanged == 0 || its.terms.exchange.fee.has_value());
    for (const BatchLine& line : batch.lines) {
        const auto book = sent.find(line.serial);
        if (!line.receipt || !shipped || book == sent.end()) {
            continue;
        }
        SettledLine one{
            line.serial, line.net, line.receipt->net(), std::max(line.receipt->payable(), Mass()), {}};
        one.kinds = kindsAsShipped(shop, line, shipped->seq, book->second, its.terms);
        one.result = line.receipt->result;
        const auto price = its.terms.prices.find(pricedAs(one.kinds));
        if (one.hasKind() && price != its.terms.prices.end()) {
            one.price = price->second;
            one.amount = price->second.of(one.payable);
        }
        known = known && one.amount.has_value();
        credit += one.amount.value_or(0);
        sums[0] += one.shipped.milligrams();
        sums[1] += one.received.milligrams();
        sums[2] += one.payable.milligrams();
        its.lines.push_back(std::move(one));
    }
    if (its.lines.empty()) {
        return Error{fmt::format("batch {} is {}: it has no receipt", batch.name, batch.status),
                     "enter the receipt first"};
    }
    its.shipped = Mass::fromMilligrams(sums[0]);
    its.received = Mass::fromMilligrams(sums[1]);
    its.payable = Mass::fromMilligrams(sums[2]);
    if (known) {
        its.credit = credit - *its.terms.fee -
                     *its.terms.feeEach * static_cast<Hundredths>(its.lines.size()) -
                     its.terms.exchange.fee.value_or(0) * static_cast<Hundredths>(its.exchanged);
    }
    addWorking(shop.display(), its);
    return its;
}

} // namespace tarebook
