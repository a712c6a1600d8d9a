#include "core/shop/not_here.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/shop/card.h"
#include "core/shop/plan_rules.h"

namespace tarebook {

namespace {

constexpr const char* kLeftFleet = "custody.left-fleet";
constexpr const char* kAway = "custody.away";

bool tookItOut(const Entry& entry, const CylinderState& state) {
    const std::string& serial = state.plate.serial;
    if (entry.kind == EntryKind::retired) {
        return true;
    }
    const auto exchanged = entry.body.find("exchanged");
    return entry.kind == EntryKind::batchSettled && exchanged != entry.body.end() && exchanged->is_array() &&
           std::any_of(exchanged->begin(), exchanged->end(), [&](const nlohmann::json& line) {
               return line.is_object() && line.value("out", std::string()) == serial;
           });
}

/// The newest entry that stands and took it out of the fleet, or on its way to the reclaimer.
std::optional<Entry> leavingOf(const Shop& shop, const CylinderState& state) {
    const bool away = state.condition == Condition::away;
    const auto entries = shop.store().entriesAbout(Account::cylinder(state.plate.serial).text());
    std::optional<Entry> newest;
    for (const Entry& entry : entries ? entries.value() : std::vector<Entry>()) {
        const bool its = away ? entry.kind == EntryKind::batchShipped : tookItOut(entry, state);
        if (its && entry.seq <= state.lastEntry && !shop.store().reversedBy(entry.seq)) {
            newest = entry;
        }
    }
    return newest;
}

/// What brought something since it left, by the state.
std::vector<Sequence> broughtSince(const CylinderState& state, Sequence left) {
    const Sequence weighed = state.lastReading ? state.lastReading->entry : Sequence{0};
    const Sequence brought = std::max(state.lastFillEntry, weighed);
    return brought > left ? std::vector{brought} : std::vector<Sequence>();
}

std::string otherNumber(const std::vector<Sequence>& written) {
    return written.empty()
               ? std::string("Read the number on the collar. Was it another cylinder, enter it for that one.")
               : fmt::format(
                     "Read the number on the collar. Was it another cylinder, reverse {} {} and enter "
                     "it for that one.",
                     written.size() == 1 ? "entry" : "entries", fmt::join(written, ", "));
}

std::string dayOf(const Shop& shop, const Entry& entry) {
    return shop.zone().dateOf(entry.occurred).text();
}

std::string insideText(const Shop& shop, const CylinderState& state) {
    return state.content.empty()
               ? std::string()
               : fmt::format(" By the books {} of {} are inside.", shop.display().mass(state.content.total()),
                             contentName(state.content));
}

Finding leftFleet(const Shop& shop, const CylinderState& state, const std::optional<Entry>& leaving,
                  const std::vector<Sequence>& written) {
    const std::string why = state.conditionNote.empty() ? std::string() : ": " + state.conditionNote;
    const bool condemned = state.fitness == Condition::condemned;
    Finding finding = planFinding(Account::cylinder(state.plate.serial).text(), kLeftFleet,
                                  state.content.empty() ? Severity::caution : Severity::danger,
                                  fmt::format("It left the fleet{}{}.{} Is it another number?",
                                              leaving ? " on " + dayOf(shop, *leaving) : std::string(), why,
                                              insideText(shop, state)),
                                  otherNumber(written));
    if (leaving) {
        finding.remedy += fmt::format(
            " Is it this one, and in the shop: reverse entry {}, by which it left, {}.", leaving->seq,
            condemned ? "and have it emptied; it is condemned and takes no gas" : "before it is used again");
        finding.working.push_back(fmt::format("left by entry {} of {}", leaving->seq, dayOf(shop, *leaving)));
    }
    return finding;
}

Finding away(const Shop& shop, const CylinderState& state, const std::optional<Entry>& leaving,
             const std::vector<Sequence>& written) {
    Finding finding = planFinding(
        Account::cylinder(state.plate.serial).text(), kAway, Severity::caution,
        fmt::format("It is with {}{}{}.{} Did it come back, or is it another cylinder?",
                    state.conditionNote.empty() ? "a reclaimer" : state.conditionNote,
                    leaving ? " since " + dayOf(shop, *leaving) : std::string(),
                    state.batch.empty() ? std::string() : ", batch " + state.batch, insideText(shop, state)),
        otherNumber(written) + " Did it come back: once it is checked in, its line in the batch says so.");
    if (leaving) {
        finding.working.push_back(fmt::format("shipped by entry {}", leaving->seq));
    }
    return finding;
}

} // namespace

std::optional<Finding> notHere(const Shop& shop, const CylinderState& state, std::vector<Sequence> written) {
    const bool isAway = state.condition == Condition::away;
    if (!isAway && state.condition != Condition::retired) {
        return std::nullopt;
    }
    const std::optional<Entry> leaving = leavingOf(shop, state);
    if (written.empty()) {
        written = broughtSince(state, leaving ? leaving->seq : state.lastEntry);
    }
    return isAway ? away(shop, state, leaving, written) : leftFleet(shop, state, leaving, written);
}

void addNotHere(const Shop& shop, const std::vector<CylinderState>& named, std::vector<Finding>& findings,
                const std::vector<Sequence>& written) {
    for (const CylinderState& state : named) {
        auto finding = notHere(shop, state, written);
        const bool known = finding && std::any_of(findings.begin(), findings.end(), [&](const Finding& one) {
                               return one.rule == finding->rule && one.subject == finding->subject;
                           });
        if (finding && !known) {
            findings.push_back(*std::move(finding));
        }
    }
}

} // namespace tarebook
