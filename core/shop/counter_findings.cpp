#include "core/shop/counter_findings.h"

#include <set>

#include <fmt/format.h>

#include "core/ledger/body_text.h"
#include "core/ledger/held_after.h"
#include "core/shop/card.h"
#include "core/shop/open_releases.h"
#include "core/shop/plan_rules.h"
#include "core/shop/system_findings.h"

namespace tarebook {

namespace {

/// What the legs say that it holds.
Result<Holding> heldBy(Shop& shop, const std::string& serial) {
    const Account self = Account::cylinder(serial);
    const auto legs = shop.store().legsAbout(self, 1);
    if (!legs) {
        return legs.error();
    }
    return legs.value().empty() ? Holding() : heldAfter(legs.value().front(), self);
}

Result<bool> addMissing(Shop& shop, std::vector<Finding>& findings) {
    const auto reversed = shop.store().reversedEntries(EntryKind::cylinderRegistered);
    if (!reversed) {
        return reversed.error();
    }
    std::set<std::string> seen;
    for (const Entry& entry : reversed.value()) {
        const std::string serial = bodyText(entry.body, "serial");
        const auto known = shop.store().cylinder(serial);
        if (!known) {
            return known.error();
        }
        if (known.value() || !seen.insert(serial).second) {
            continue;
        }
        const auto held = heldBy(shop, serial);
        if (!held) {
            return held.error();
        }
        if (held.value().empty()) {
            continue;
        }
        findings.push_back(planFinding(
            Account::cylinder(serial).text(), "register.missing", Severity::refusal,
            fmt::format("{} of {} in {}, which is not on the register.",
                        shop.display().mass(held.value().total()), contentName(held.value()), serial),
            fmt::format("Register {} again with its marks: what it holds and its history come back.",
                        serial)));
        findings.back().working.push_back(fmt::format("its registration, entry {}, was reversed by entry {}",
                                                      entry.seq,
                                                      shop.store().reversedBy(entry.seq).value_or(0)));
    }
    return true;
}

/// The steps of a batch that stand.
struct Steps {
    Sequence shipped = 0;
    Sequence later = 0; // a receipt or a settling
    std::string word;   // of it
};

Result<Steps> stepsOf(Shop& shop, const std::string& batch) {
    const auto entries = shop.store().entriesAbout("batch:" + batch);
    if (!entries) {
        return entries.error();
    }
    Steps steps;
    for (const Entry& entry : entries.value()) {
        const bool later = entry.kind == EntryKind::batchReceived || entry.kind == EntryKind::batchSettled;
        if ((!later && entry.kind != EntryKind::batchShipped) || shop.store().reversedBy(entry.seq)) {
            continue;
        }
        (later ? steps.later : steps.shipped) = entry.seq;
        if (later) {
            steps.word = entry.kind == EntryKind::batchSettled ? "settled" : "received";
        }
    }
    return steps;
}

Result<bool> addUnshipped(Shop& shop, std::vector<Finding>& findings) {
    const auto reversed = shop.store().reversedEntries(EntryKind::batchShipped);
    if (!reversed) {
        return reversed.error();
    }
    std::set<std::string> seen;
    for (const Entry& entry : reversed.value()) {
        const std::string name = bodyText(entry.body, "batch");
        if (!seen.insert(name).second) {
            continue;
        }
        const auto steps = stepsOf(shop, name);
        if (!steps) {
            return steps.error();
        }
        if (steps.value().shipped == 0 && steps.value().later != 0) {
            findings.push_back(planFinding(
                "batch:" + name, "batch.not-shipped", Severity::refusal,
                fmt::format("{} is {} by entry {}, but its shipping, entry {}, was reversed: what was in its "
                            "cylinders is missing from the return.",
                            name, steps.value().word, steps.value().later, entry.seq),
                fmt::format("Reverse entry {} too, then ship, receive and settle it anew.",
                            steps.value().later)));
        }
    }
    return true;
}

Result<bool> addReleases(Shop& shop, std::vector<Finding>& findings) {
    const auto released = openReleases(shop);
    if (!released) {
        return released.error();
    }
    for (const auto& [serial, finding] : released.value()) {
        findings.push_back(finding);
    }
    return true;
}

} // namespace

Result<std::vector<Finding>> openAtTheCounter(Shop& shop) {
    auto findings = openOnSystems(shop);
    if (!findings) {
        return findings;
    }
    std::vector<Finding> all = std::move(findings).value();
    for (const auto& add : {&addMissing, &addUnshipped, &addReleases}) {
        const auto done = add(shop, all);
        if (!done) {
            return done.error();
        }
    }
    return all;
}

} // namespace tarebook
