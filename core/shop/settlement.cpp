#include "core/shop/settlement.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/shop/exchange_checks.h"
#include "core/shop/look_then_record.h"
#include "core/shop/names.h"
#include "core/shop/receipts.h"

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

/// What the batch sent, gas by gas, so that a difference is settled in the same proportions.
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

void addSettledLines(const std::string& serial, const Holding& book, Mass net, nlohmann::json& lines) {
    const Holding received = book.portion(net);
    for (const auto& [gas, milligrams] : book.parts()) {
        const auto its = received.parts().find(gas);
        nlohmann::json line{{"serial", serial},
                            {"refrigerant", gas.refrigerant},
                            {"book_mg", milligrams},
                            {"net_mg", its == received.parts().end() ? 0 : its->second}};
        if (!gas.owner.empty()) {
            line["owner"] = gas.owner;
        }
        lines.push_back(std::move(line));
    }
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

/// Of empties alone nobody writes a receipt.
Result<Batch> batchToSettle(Shop& shop, const std::string& name) {
    auto known = batch(shop, name);
    const bool bare = known && known.value().empties() == known.value().lines.size();
    return batchThatIs(shop, name, bare && known.value().status == "shipped" ? "shipped" : "received");
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
        std::count_if(batch.lines.begin(), batch.lines.end(), [](const BatchLine& line) {
            return line.receipt && !line.receipt->exchange.empty();
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

namespace {

/// What is to be decided before a batch is settled with these `exchanged` lines.
std::optional<Error> undecidedError(Shop& shop, const Batch& batch, const nlohmann::json& exchanged) {
    if (const auto open = undecided(shop, batch)) {
        return Error{open->headline,
                     "accept, dispute or correct these lines first, or settle them undecided"};
    }
    for (const BatchLine& line : batch.lines) {
        const bool stays = std::any_of(exchanged.begin(), exchanged.end(),
                                       [&](const auto& one) { return one["out"] == line.serial; });
        if (line.receipt && !line.receipt->exchange.empty() && !stays) {
            return Error{fmt::format("{} stays with {}: by the receipt {} came for it", line.serial,
                                     batch.reclaimer, line.receipt->exchange),
                         fmt::format("enter the marks of {}, or settle it undecided as one that is back",
                                     line.receipt->exchange)};
        }
    }
    return std::nullopt;
}

/// The entries that settle the batch as it stands, or why it cannot be settled so.
Looked settling(Shop& shop, const std::string& name, const BatchSettling& how) {
    const auto known = batchToSettle(shop, name);
    if (!known) {
        return refusedBy(known.error());
    }
    if (how.looked != 0 && known.value().newest() != how.looked) {
        return refusedBy(Error{fmt::format("batch {} was changed at another desk meanwhile", name),
                               "look at its receipt again"});
    }
    const auto arrived = draftsOf(shop, how.came); // with every look: another desk may have registered one
    if (!arrived) {
        return refusedBy(arrived.error());
    }
    std::map<std::string, std::string> came;
    std::set<std::string> left(how.gone.begin(), how.gone.end());
    for (const Exchanged& one : how.came) {
        came[one.out] = one.serial;
        left.insert(one.out);
    }
    const auto sent = sentBy(shop, known.value());
    nlohmann::json lines = nlohmann::json::array();
    nlohmann::json exchanged = nlohmann::json::array();
    std::vector<Draft> drafts;
    for (const BatchLine& line : known.value().lines) {
        if (line.receipt && line.receipt->verdict == ReceiptVerdict::disputed) {
            return refusedBy(Error{fmt::format("{} is disputed: {}", line.serial, line.receipt->why),
                                   "accept or correct it once the reclaimer has answered"});
        }
        if (!line.receipt && !line.empty() && !left.contains(line.serial)) {
            return refusedBy(
                Error{fmt::format("{} has no line on the receipt of batch {}", line.serial, name),
                      "enter what they received of it, or settle it as one that does not come back"});
        }
        const auto book = sent.find(line.serial);
        if (book != sent.end() && line.receivedNet) {
            addSettledLines(line.serial, book->second, *line.receivedNet, lines);
        }
        if (left.erase(line.serial) > 0) {
            exchanged.push_back({{"out", line.serial}});
            if (const auto empty = came.find(line.serial); empty != came.end()) {
                exchanged.back()["in"] = empty->second;
            }
        } else {
            drafts.push_back(shop.draft(EntryKind::returned, {{"serial", line.serial}}, how.occurred));
        }
    }
    if (!left.empty()) {
        return refusedBy(Error{fmt::format("{} was not in batch {}", tarebook::quoted(*left.begin()), name),
                               "name cylinders of the batch"});
    }
    if (!how.undecided) {
        if (const auto open = undecidedError(shop, known.value(), exchanged)) {
            return refusedBy(*open);
        }
    }
    nlohmann::json body{{"batch", name}, {"reclaimer", known.value().reclaimer}, {"lines", lines}};
    if (!how.note.empty()) {
        body["note"] = how.note;
    }
    if (!exchanged.empty()) {
        body["exchanged"] = exchanged;
    }
    // What was weighed is settled also where nothing is known of the money.
    if (const auto money = settlementOf(shop, known.value(), how.came.size())) {
        if (nlohmann::json credit = money.value().body(); credit.is_object()) {
            body["credit"] = std::move(credit);
        }
    }
    drafts.insert(drafts.begin(), shop.draft(EntryKind::batchSettled, body, how.occurred));
    drafts.insert(drafts.end(), arrived.value().begin(), arrived.value().end());
    return {std::move(drafts)};
}

} // namespace

Recorded settleBatch(Shop& shop, const std::string& name, const BatchSettling& how) {
    const auto before = batch(shop, name);
    Recorded recorded = lookThenRecord(shop, [&] { return settling(shop, name, how); });
    if (!recorded.ok() || !before) {
        return recorded;
    }
    std::map<std::string, std::string> came;
    std::vector<std::string> gone = how.gone;
    for (const Exchanged& one : how.came) {
        came[one.out] = one.serial;
        gone.push_back(one.out);
    }
    for (Finding& finding : exchangeFindings(shop, before.value(), gone, came)) {
        recorded.findings.insert(recorded.findings.begin(), std::move(finding));
    }
    if (auto open = undecided(shop, before.value())) {
        open->remedy = "Where it is not agreed: reverse the settlement, dispute or correct, settle again.";
        recorded.findings.insert(recorded.findings.begin(), std::move(*open));
    }
    return recorded;
}

} // namespace tarebook
