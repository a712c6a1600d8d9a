#include "core/shop/came_for.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/ledger/account.h"

namespace tarebook {

namespace {

std::string exchangeWord(const nlohmann::json& object, const char* key) {
    const auto field = object.is_object() ? object.find(key) : object.end();
    return object.is_object() && field != object.end() && field->is_string() ? field->get<std::string>()
                                                                             : std::string();
}

/// Those that the entry tells of: one at a counter, or as many as a batch was settled with.
std::vector<CameFor> exchangesOf(const Entry& entry) {
    std::vector<CameFor> found;
    if (entry.kind == EntryKind::retired && !exchangeWord(entry.body, "for").empty()) {
        const auto party = Account::parse(exchangeWord(entry.body, "party"));
        found.push_back({exchangeWord(entry.body, "serial"), exchangeWord(entry.body, "for"),
                         party ? party.value().name : std::string(), entry.occurred, entry.seq, true});
    }
    if (entry.kind != EntryKind::batchSettled || !entry.body.contains("exchanged") ||
        !entry.body["exchanged"].is_array()) {
        return found;
    }
    for (const auto& line : entry.body["exchanged"]) {
        if (!exchangeWord(line, "in").empty()) {
            found.push_back({exchangeWord(line, "out"), exchangeWord(line, "in"),
                             exchangeWord(entry.body, "reclaimer"), entry.occurred, entry.seq});
        }
    }
    return found;
}

/// Those that the cylinder is in, oldest first; reversed ones do not count.
Result<std::vector<CameFor>> exchangesAbout(Shop& shop, const std::string& serial, Sequence head) {
    const auto entries = shop.store().entriesAbout(Account::cylinder(serial).text(), head);
    if (!entries) {
        return entries.error();
    }
    std::vector<CameFor> found;
    for (const Entry& entry : entries.value()) {
        const auto reversed = shop.store().reversedBy(entry.seq);
        if (reversed && (head == 0 || *reversed <= head)) {
            continue;
        }
        for (CameFor& one : exchangesOf(entry)) {
            // One that left at a counter is in the settlement of its batch once more.
            const bool known = std::any_of(found.begin(), found.end(), [&](const CameFor& other) {
                return other.out == one.out && other.in == one.in;
            });
            if (!known && (one.out == serial || one.in == serial)) {
                found.push_back(std::move(one));
            }
        }
    }
    return found;
}

/// Whether nothing was bought in it with the step by which it came.
Result<bool> cameEmpty(Shop& shop, const CameFor& exchange) {
    const auto entries = shop.store().entriesAbout(Account::cylinder(exchange.in).text());
    if (!entries) {
        return entries.error();
    }
    return std::none_of(entries.value().begin(), entries.value().end(), [&](const Entry& entry) {
        return entry.kind == EntryKind::bought && entry.occurred == exchange.occurred &&
               !shop.store().reversedBy(entry.seq);
    });
}

} // namespace

Result<std::optional<CameFor>> leftAtCounter(Shop& shop, const std::string& serial) {
    const auto exchanges = exchangesAbout(shop, serial, 0);
    if (!exchanges) {
        return exchanges.error();
    }
    for (const CameFor& one : exchanges.value()) {
        if (one.atCounter && one.out == serial) {
            const auto empty = cameEmpty(shop, one);
            if (!empty) {
                return empty.error();
            }
            CameFor found = one;
            found.empty = empty.value();
            return std::optional(std::move(found));
        }
    }
    return std::optional<CameFor>();
}

std::vector<std::string> cameForSaid(Shop& shop, const std::string& serial, Sequence head,
                                     std::optional<Instant> until) {
    std::vector<std::string> sentences;
    const auto exchanges = exchangesAbout(shop, serial, head);
    for (const CameFor& one : exchanges ? exchanges.value() : std::vector<CameFor>()) {
        if (until && one.occurred > *until) {
            continue;
        }
        sentences.push_back(
            fmt::format("{} on {}{} (entry {}).",
                        one.out == serial ? fmt::format("{} came for it", one.in)
                                          : fmt::format("It came for {}", one.out),
                        shop.zone().dateOf(one.occurred).text(),
                        one.party.empty() ? std::string() : fmt::format(" from {}", one.party), one.entry));
    }
    return sentences;
}

} // namespace tarebook
