#include "core/shop/day_checks.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/shop/plan_rules.h"
#include "core/shop/unexplained.h"
#include "core/store/odd_days.h"

namespace tarebook {

namespace {

constexpr const char* kBeforeRegistration = "day.before-registration";
constexpr const char* kLateOpening = "opening.late";
constexpr int kMovementsLookedAt = 256; // those that lie nearest before an opening

std::string subjectOf(const CylinderState& state) {
    return Account::cylinder(state.plate.serial).text();
}

Finding beforeRegistration(const CylinderState& state, std::string headline) {
    Finding finding = planFinding(
        subjectOf(state), kBeforeRegistration, Severity::caution, std::move(headline),
        "Look at the day, and at the number on the collar. Wrong: reverse the entry and enter it with the "
        "right one; right: settle it with the reason, as: it was in the shop before.");
    finding.overrulable = true;
    return finding;
}

Finding lateOpening(const CylinderState& state, const std::string& what) {
    Finding finding = planFinding(
        subjectOf(state), kLateOpening, Severity::caution,
        fmt::format("{} found when the books began: but it had moved other gas or was evacuated before.",
                    what),
        "Where did it come from? Reverse the entry, and enter the recovery or the purchase with its moment, "
        "or "
        "weigh it: gas that came in later is not the shop's own by that. Else settle it with the reason.");
    finding.overrulable = true;
    return finding;
}

/// Those that nothing has settled since, in words; empty where none is left.
std::string openOf(std::vector<Sequence> entries, Sequence settled) {
    std::erase_if(entries, [&](Sequence seq) { return seq <= settled; });
    return entries.empty()
               ? std::string()
               : fmt::format("{} {}", entries.size() == 1 ? "entry" : "entries", fmt::join(entries, ", "));
}

using Entries = std::vector<Entry>;

bool wasRegistered(const Entries& entries, Instant moment) {
    return std::any_of(entries.begin(), entries.end(), [&](const Entry& entry) {
        return entry.kind == EntryKind::cylinderRegistered && entry.occurred <= moment;
    });
}

bool wasEvacuated(const Shop& shop, const Entries& entries, Instant moment) {
    return std::any_of(entries.begin(), entries.end(), [&](const Entry& entry) {
        const bool said =
            entry.kind == EntryKind::evacuated ||
            (entry.kind == EntryKind::cylinderRegistered && entry.body.value("evacuated", false));
        return said && entry.occurred <= moment && !shop.store().reversedBy(entry.seq);
    });
}

bool hadMoved(const Shop& shop, const CylinderState& state, Instant moment) {
    const auto legs = shop.store().legReader()->before(
        Account::cylinder(state.plate.serial), {moment, shop.store().headSeq() + 1}, 0, kMovementsLookedAt);
    return legs && std::any_of(legs.value().begin(), legs.value().end(),
                               [](const Leg& leg) { return leg.source.kind != AccountKind::opening; });
}

} // namespace

std::optional<Error> impossibleDay(const Shop& shop, const CylinderState& state,
                                   std::optional<Instant> occurred) {
    if (!occurred) {
        return std::nullopt;
    }
    const Date day = shop.zone().dateOf(*occurred);
    if (day.month() >= state.plate.manufactured) {
        return std::nullopt;
    }
    return Error{fmt::format("{} was made in {}: nothing can have happened to it on {}", state.plate.serial,
                             state.plate.manufactured.text(), day.text()),
                 "look at the day, and at the date on the collar"};
}

std::vector<Finding> oddDaysOf(const Shop& shop, const CylinderState& state) {
    std::vector<Finding> findings;
    const auto books = shop.store().legReader();
    const auto known = oddDaysOf(*books, state.plate.serial);
    if (!known) {
        return findings;
    }
    OddDays odd = known.value();
    // An earlier state is told of its own openings; what came before the registration no state counts.
    std::erase_if(odd.lateOpenings, [&](Sequence seq) { return seq > state.lastEntry; });
    if (!odd.beforeRegistration.empty()) {
        const std::string open =
            openOf(odd.beforeRegistration, overruledBy(shop, state, kBeforeRegistration));
        if (!open.empty()) {
            findings.push_back(
                beforeRegistration(state, fmt::format("Gas moved before it was on the register: {}.", open)));
        }
    }
    if (!odd.lateOpenings.empty()) {
        const std::string open = openOf(odd.lateOpenings, overruledBy(shop, state, kLateOpening));
        if (!open.empty()) {
            findings.push_back(lateOpening(state, "Gas of " + open));
        }
    }
    return findings;
}

std::vector<Finding> oddDayOf(const Shop& shop, const CylinderState& state, const Movement& movement,
                              Instant occurred) {
    std::vector<Finding> findings;
    const auto entries = shop.store().entriesAbout(subjectOf(state));
    if (!entries) {
        return findings;
    }
    if (!wasRegistered(entries.value(), occurred)) {
        findings.push_back(
            beforeRegistration(state, fmt::format("Gas moved on {}, before it was on the register.",
                                                  shop.zone().dateOf(occurred).text())));
    }
    if (movement.source.kind == AccountKind::opening &&
        (hadMoved(shop, state, occurred) || wasEvacuated(shop, entries.value(), occurred))) {
        findings.push_back(lateOpening(state, shop.display().mass(movement.mass)));
    }
    return findings;
}

} // namespace tarebook
