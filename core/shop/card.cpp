#include "core/shop/card.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "core/ledger/body_text.h"
#include "core/shop/came_for.h"
#include "core/shop/deposits.h"
#include "core/shop/exchange_checks.h"
#include "core/shop/findings.h"
#include "core/shop/names.h"
#include "core/shop/open_releases.h"
#include "core/shop/plan_rules.h"
#include "core/shop/retest_of.h"
#include "core/shop/shipping.h"

namespace tarebook {

namespace {

HistoryLine lineOf(Shop& shop, const Entry& entry) {
    HistoryLine line;
    line.entry = entry.seq;
    line.occurred = entry.occurred;
    line.recorded = entry.recorded;
    line.kind = std::string(entryKindWord(entry.kind));
    line.sentence = sentenceOf(shop, entry);
    line.operatorName = entry.operatorName;
    line.reversedBy = shop.store().reversedBy(entry.seq);
    return line;
}

void endCustody(std::vector<Custody>& custody, Instant until) {
    if (!custody.empty() && !custody.back().until) {
        custody.back().until = until;
    }
}

/// Who had it, oldest first, from its entries in time order; reversed ones do not count.
std::vector<Custody> custodyOf(Shop& shop, const std::vector<Entry>& entries, Sequence head) {
    std::vector<Custody> custody;
    for (const Entry& entry : entries) {
        const auto reversed = shop.store().reversedBy(entry.seq);
        if (reversed && (head == 0 || *reversed <= head)) {
            continue;
        }
        const bool handed = entry.kind == EntryKind::handedOut || entry.kind == EntryKind::handedOver;
        if (handed || entry.kind == EntryKind::returned || entry.kind == EntryKind::batchShipped) {
            endCustody(custody, entry.occurred);
        }
        if (handed) {
            custody.push_back(
                {bodyText(entry.body, "person"), bodyText(entry.body, "job"), entry.occurred, {}, entry.seq});
        }
        if (entry.kind == EntryKind::batchShipped) {
            custody.push_back({bodyText(entry.body, "reclaimer"),
                               bodyText(entry.body, "batch"),
                               entry.occurred,
                               {},
                               entry.seq});
        }
    }
    return custody;
}

/// What was let out of it and nobody has settled.
Result<bool> addReleased(Shop& shop, Card& card) {
    const auto released = openReleases(shop, card.state.plate.serial);
    if (!released) {
        return released.error();
    }
    for (const auto& [serial, finding] : released.value()) {
        card.findings.push_back(finding);
    }
    std::stable_sort(card.findings.begin(), card.findings.end(), worseFirst);
    return true;
}

} // namespace

void nameTarget(Shop& shop, Targets& targets, const CylinderState& state, Finding& finding) {
    Mass mass = state.content.total();
    if (finding.rule == "fill.overfilled" || finding.rule == "fill.above-practice") {
        const Limits limits = limitsFor(shop, state);
        mass = Mass::fromMilligrams(std::max<std::int64_t>(0, -limits.room.milligrams()));
    } else if (finding.rule != "retest.filled-late" && !finding.rule.starts_with("pressure.")) {
        return;
    }
    if (finding.severity < Severity::caution || finding.rule == "pressure.thin" || mass.milligrams() <= 0) {
        return;
    }
    const std::string target = targets.of(state, mass);
    if (!target.empty()) {
        finding.remedy += fmt::format(" {} is in the shop, in date and has room.", target);
    }
}

std::vector<Finding> findingsWithTargets(Shop& shop, const CylinderState& state, Date on) {
    std::vector<Finding> findings = findingsOf(shop, state, on);
    Targets targets(shop, on);
    for (Finding& finding : findings) {
        nameTarget(shop, targets, state, finding);
    }
    return findings;
}

Result<Card> card(Shop& shop, const std::string& serial, Sequence head) {
    Card card;
    if (head == 0) {
        auto state = stateNamed(shop, serial);
        if (!state) {
            return state.error();
        }
        card.state = std::move(state).value();
    } else {
        auto state = shop.store().cylinderAt(serial, head);
        if (!state) {
            return state.error();
        }
        if (!state.value()) {
            return Error{fmt::format("there was no cylinder {} at entry {}", tarebook::quoted(serial), head),
                         "ask for a later entry"};
        }
        card.state = *std::move(state).value();
    }
    card.limits = limitsFor(shop, card.state);
    const auto verdict = retestOf(shop, card.state, shop.today());
    if (verdict) {
        card.due = verdict.value().dueText();
        const bool full = card.limits.known && card.limits.room.milligrams() <= 0;
        const bool weak = card.limits.known && !card.limits.pressureSuits;
        card.fillAllowed = verdict.value().fillAllowed && card.state.condition == Condition::serviceable &&
                           card.state.plate.specification.refillable() && !full && !weak;
        card.shipAllowed = transportOf(shop, card.state, shop.today()).reason.empty();
    }
    card.findings = findingsWithTargets(shop, card.state, shop.today());
    if (head == 0) {
        const auto added = addReleased(shop, card);
        if (!added) {
            return added.error();
        }
    }
    const auto deposit =
        head == 0 ? depositOf(shop, serial, shop.today()) : Result<std::optional<Deposit>>(std::nullopt);
    if (!deposit) {
        return deposit.error();
    }
    if (deposit.value() && deposit.value()->out(shop.today())) {
        Finding finding = depositFinding(*deposit.value(), shop.today());
        const auto less = std::find_if(card.findings.begin(), card.findings.end(),
                                       [&](const Finding& one) { return one.severity < finding.severity; });
        card.findings.insert(less, std::move(finding));
    }
    if (head == 0) {
        card.exchange = exchangeOnCard(shop, card.state);
    }
    for (std::string& said : cameForSaid(shop, serial, head)) {
        card.exchange.push_back(std::move(said));
    }
    auto entries = shop.store().entriesAbout(Account::cylinder(serial).text(), head);
    if (!entries) {
        return entries.error();
    }
    card.custody = custodyOf(shop, entries.value(), head);
    std::reverse(card.custody.begin(), card.custody.end());
    for (const Entry& entry : entries.value()) {
        card.history.push_back(lineOf(shop, entry));
    }
    std::reverse(card.history.begin(), card.history.end());
    return card;
}

std::vector<HistoryLine> historyOf(Shop& shop, const std::string& subject, Sequence head) {
    std::vector<HistoryLine> history;
    const auto entries = shop.store().entriesAbout(subject, head);
    if (entries) {
        for (const Entry& entry : entries.value()) {
            history.push_back(lineOf(shop, entry));
        }
    }
    std::reverse(history.begin(), history.end());
    return history;
}

} // namespace tarebook
