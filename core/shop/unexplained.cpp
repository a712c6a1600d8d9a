#include "core/shop/unexplained.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/shop/plan_rules.h"
#include "core/shop/release_duties.h"
#include "core/shop/system_findings.h"

namespace tarebook {

namespace {

constexpr std::int64_t kTwoOunces = 56'699; // mg: 2 x 28,349.5
constexpr const char* kUnexplained = "release.unexplained";
constexpr const char* kOverWithdrawn = "weight.over-withdrawn";

std::string subjectFor(const CylinderState& state) {
    return Account::cylinder(state.plate.serial).text();
}

std::string massAndName(const Shop& shop, const Holding& gas) {
    return fmt::format("{} of {}", shop.display().mass(gas.total()), contentName(gas));
}

Finding unexplained(const Shop& shop, const CylinderState& state, const Holding& gone, std::string headline) {
    Finding finding = planFinding(
        subjectFor(state), kUnexplained, Severity::refusal, std::move(headline),
        "Into which cylinder did it go? Enter that decant with its moment, before the evacuation. Was it "
        "another cylinder, reverse the entry; else settle it with the reason.");
    (void)citeDuty(shop, gone, "venting", finding);
    finding.overrulable = true;
    return finding;
}

Finding overWithdrawn(const Shop& shop, const CylinderState& state, Mass lacking) {
    Finding finding = planFinding(
        subjectFor(state), kOverWithdrawn, Severity::caution,
        fmt::format("{} more went out than the books had in it.", shop.display().mass(lacking)),
        "Weigh it. Enter the recovery or the purchase that is missing with its moment, or reverse the wrong "
        "mass; else settle it with the reason.");
    finding.working = {fmt::format("scale and tare together may be off by {}",
                                   shop.display().mass(shop.settings().weighingTolerance)),
                       "the books took what was missing from variance, as of the kind that was inside"};
    finding.overrulable = true;
    return finding;
}

/// Legs of one cause that nobody has explained, put together.
struct Open {
    Holding gas;
    std::vector<Sequence> entries;

    void take(const Leg& leg) {
        gas.add(leg.moved);
        entries.push_back(leg.moment.seq);
    }
    [[nodiscard]] std::string words() const {
        return fmt::format("{} {}", entries.size() == 1 ? "entry" : "entries", fmt::join(entries, ", "));
    }
};

} // namespace

Sequence overruledBy(const Shop& shop, const CylinderState& state, const char* rule) {
    if (std::find(state.overruled.begin(), state.overruled.end(), rule) == state.overruled.end()) {
        return 0;
    }
    return newestOverruling(shop, subjectFor(state), rule);
}

Mass evacuatedHeel(const Shop& shop) {
    return std::max(Mass::fromMilligrams(kTwoOunces), shop.settings().weighingTolerance);
}

std::vector<Finding> unexplainedOf(const Shop& shop, const CylinderState& state) {
    std::vector<Finding> findings;
    const auto legs = shop.store().varianceLegs(state.plate.serial);
    if (!legs || std::all_of(legs.value().begin(), legs.value().end(),
                             [](const Leg& leg) { return leg.cause == LegCause::weighing; })) {
        return findings;
    }
    const Sequence evacuationSettled = overruledBy(shop, state, kUnexplained);
    const Sequence withdrawalSettled = overruledBy(shop, state, kOverWithdrawn);
    Open evacuated;
    Open withdrawn;
    for (const Leg& leg : legs.value()) {
        const Sequence seq = leg.moment.seq;
        const Mass mass = leg.moved.total();
        if (seq > state.lastEntry) {
            continue; // the state is an earlier one
        }
        if (leg.cause == LegCause::evacuation && seq > evacuationSettled && mass > evacuatedHeel(shop)) {
            evacuated.take(leg);
        } else if (leg.cause == LegCause::overWithdrawal && seq > withdrawalSettled &&
                   mass > shop.settings().weighingTolerance) {
            withdrawn.take(leg);
        }
    }
    if (!evacuated.entries.empty()) {
        findings.push_back(
            unexplained(shop, state, evacuated.gas,
                        fmt::format("{} left it when it was evacuated, and nothing says where to.",
                                    massAndName(shop, evacuated.gas))));
        findings.back().working.push_back("posted to variance by " + evacuated.words());
    }
    if (!withdrawn.entries.empty()) {
        findings.push_back(overWithdrawn(shop, state, withdrawn.gas.total()));
        findings.back().working.push_back("taken out by " + withdrawn.words());
    }
    return findings;
}

std::optional<Finding> evacuationToExplain(const Shop& shop, const CylinderState& state) {
    if (state.content.total() <= evacuatedHeel(shop)) {
        return std::nullopt;
    }
    return unexplained(shop, state, state.content,
                       fmt::format("The books still have {} in it: nothing says where they went.",
                                   massAndName(shop, state.content)));
}

std::optional<Finding> tooMuchTaken(const Shop& shop, const CylinderState& state, Mass mass) {
    const Mass lacking = Mass::fromMilligrams(mass.milligrams() - state.content.total().milligrams());
    return lacking > shop.settings().weighingTolerance
               ? std::optional<Finding>(overWithdrawn(shop, state, lacking))
               : std::nullopt;
}

} // namespace tarebook
