#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/shop/came_for.h"
#include "core/shop/exchange_checks.h"
#include "core/shop/look_then_record.h"
#include "core/shop/receipts.h"
#include "core/shop/settlement.h"

namespace tarebook {

namespace {

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

/// Of empties alone nobody writes a receipt.
Result<Batch> batchToSettle(Shop& shop, const std::string& name) {
    auto known = batch(shop, name);
    const bool bare = known && known.value().empties() == known.value().lines.size();
    return batchThatIs(shop, name, bare && known.value().status == "shipped" ? "shipped" : "received");
}

/// What is to be decided before a batch is settled with these `exchanged` lines.
std::optional<Error> undecidedError(Shop& shop, const Batch& batch, const nlohmann::json& exchanged) {
    if (const auto open = undecided(shop, batch)) {
        std::string wrong = open->headline;
        if (wrong.ends_with('.')) {
            wrong.pop_back(); // the Error goes on
        }
        return Error{std::move(wrong),
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

/// Those of the batch that were exchanged at the counter when they left, by serial.
Result<std::map<std::string, CameFor>> exchangedBefore(Shop& shop, const Batch& batch) {
    std::map<std::string, CameFor> exchanged;
    for (const BatchLine& line : batch.lines) {
        auto left = leftAtCounter(shop, line.serial);
        if (!left) {
            return left.error();
        }
        if (left.value()) {
            exchanged[line.serial] = *std::move(left).value();
        }
    }
    return exchanged;
}

/// What came with the settlement: not those that came before it and are named once more.
Result<std::vector<Exchanged>> cameNow(const std::vector<Exchanged>& named,
                                       const std::map<std::string, CameFor>& before) {
    std::vector<Exchanged> now;
    for (const Exchanged& one : named) {
        const auto known = before.find(one.out);
        if (known == before.end()) {
            now.push_back(one);
        } else if (known->second.in != one.serial) {
            return Error{fmt::format("{} came for {} at the counter already, by entry {}", known->second.in,
                                     one.out, known->second.entry),
                         fmt::format("reverse that entry if {} came instead", one.serial)};
        }
    }
    return now;
}

/// How many empties are paid for: with the settlement, and at the counter before it.
std::size_t emptiesCome(const std::vector<Exchanged>& now, const std::map<std::string, CameFor>& before) {
    return now.size() + static_cast<std::size_t>(std::count_if(
                            before.begin(), before.end(), [](const auto& one) { return one.second.empty; }));
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
    const auto before = exchangedBefore(shop, known.value());
    if (!before) {
        return refusedBy(before.error());
    }
    const auto now = cameNow(how.came, before.value());
    if (!now) {
        return refusedBy(now.error());
    }
    const auto arrived = draftsOf(shop, now.value()); // with every look: another desk may have registered one
    if (!arrived) {
        return refusedBy(arrived.error());
    }
    std::map<std::string, std::string> came;
    std::set<std::string> left(how.gone.begin(), how.gone.end());
    for (const Exchanged& one : now.value()) {
        came[one.out] = one.serial;
        left.insert(one.out);
    }
    for (const auto& [serial, one] : before.value()) {
        came[serial] = one.in;
        left.insert(serial);
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
        } else if (!line.cameBack) { // what was checked in before came back then
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
    if (const auto money = settlementOf(shop, known.value(), emptiesCome(now.value(), before.value()))) {
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
    const auto counter = exchangedBefore(shop, before.value());
    for (const auto& [serial, one] : counter ? counter.value() : std::map<std::string, CameFor>()) {
        came[serial] = one.in; // what there was to say of it was said at the counter, but for its fee
        gone.push_back(serial);
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
