#include "core/shop/checkin_rules.h"

#include <algorithm>

#include "core/rules/contents_on_top.h"
#include "core/shop/charge_contents.h"
#include "core/shop/charge_owner.h"
#include "core/shop/equipment.h"
#include "core/shop/machines.h"
#include "core/shop/names.h"
#include "core/shop/out_of_use.h"
#include "core/shop/recovery_contents.h"
#include "core/shop/release_duties.h"
#include "core/shop/system_traffic.h"
#include "core/shop/unexplained.h"

namespace tarebook {

namespace {

/// The machine that was used, how far the system was evacuated, and whether it is for what came out of it.
void judgeRecovery(Shop& shop, const CheckIn& facts, const Movement& movement,
                   std::vector<Finding>& findings) {
    const Recovery recovery{movement.source.name, movement.refrigerant, facts.machine,
                            facts.work,           facts.smallAppliance, facts.reached};
    const Instant occurred = facts.occurred.value_or(shop.now());
    for (Finding& finding : machineFindings(shop, recovery, occurred)) {
        findings.push_back(std::move(finding));
    }
    if (facts.reached) {
        if (auto level = evacuationFinding(shop, recovery, shop.zone().dateOf(occurred))) {
            findings.push_back(std::move(*level));
        }
    }
    if (const auto system = systemNamed(shop, movement.source.name)) {
        if (auto other = recoveryFinding(shop, *system, movement.refrigerant)) {
            findings.push_back(std::move(*other));
        }
    }
}

/// What leaves the cylinder; where it holds nothing by the books, what the entry says or nobody knows.
Holding leaving(const CylinderState& state, const Movement& movement) {
    if (!state.content.empty()) {
        return state.content.portion(movement.mass);
    }
    const std::string named = movement.refrigerant.empty() ? std::string(kUnknownGas) : movement.refrigerant;
    return {Gas{named, {}, GasState::recovered}, movement.mass};
}

/// What went into a system: whether the system is for it, whether its owner is the customer, and what the
/// charge says of a leak.
void judgeCharge(Shop& shop, const CheckIn& facts, const CylinderState& state, const Movement& movement,
                 std::vector<Finding>& findings) {
    const auto system = systemNamed(shop, movement.target.name);
    if (!system) {
        return;
    }
    if (auto wrong = chargeFinding(shop, *system, leaving(state, movement))) {
        findings.push_back(std::move(*wrong));
    }
    if (auto foreign = ownerFinding(shop, *system, leaving(state, movement), state.plate.serial)) {
        findings.push_back(std::move(*foreign));
    }
    if (facts.charge != ChargePurpose::installation) {
        if (auto gone = outOfUseFinding(shop, *system, "charge.out-of-use")) {
            findings.push_back(std::move(*gone));
        }
    }
    const std::int64_t own = ownGasIn(leaving(state, movement), designationFor(shop, system->refrigerant));
    if (own > 0 && facts.charge == ChargePurpose::addition) {
        const Date day = shop.zone().dateOf(facts.occurred.value_or(shop.now()));
        for (Finding& finding : leakAfterCharge(shop, *system, day, Mass::fromMilligrams(own))) {
            findings.push_back(std::move(finding));
        }
    }
}

} // namespace

std::vector<CylinderState> namedCylinders(Shop& shop, const CylinderState& state,
                                          const std::optional<Movement>& movement) {
    std::vector<CylinderState> named{state};
    if (!movement) {
        return named;
    }
    for (const Account* account : {&movement->source, &movement->target}) {
        if (account->kind == AccountKind::cylinder && account->name != state.plate.serial) {
            if (auto other = stateNamed(shop, account->name)) {
                named.push_back(std::move(other).value());
            }
        }
    }
    return named;
}

CylinderState afterMovement(Shop& shop, CylinderState state, const Movement& movement, Instant occurred) {
    const Account self = Account::cylinder(state.plate.serial);
    if (movement.source == self) {
        const std::int64_t out = std::min(movement.mass.milligrams(), state.content.total().milligrams());
        state.content.subtract(state.content.portion(Mass::fromMilligrams(out)));
        return state;
    }
    if (movement.source.kind == AccountKind::cylinder) {
        const auto source = shop.store().cylinder(movement.source.name);
        if (source && source.value()) {
            state.content.add(source.value()->content.portion(movement.mass));
        }
    } else {
        state.content.add(Gas{movement.refrigerant, movement.owner, movement.state},
                          movement.mass.milligrams());
        state.recoveryUse = state.recoveryUse || movement.state == GasState::recovered;
    }
    state.evacuated = false;
    state.lastFilled = occurred;
    return state;
}

void judgeTransfer(Shop& shop, const CheckIn& facts, const CylinderState& state, const Movement& movement,
                   std::vector<Finding>& findings) {
    if (movement.source.kind == AccountKind::system) {
        judgeRecovery(shop, facts, movement, findings);
    }
    if (movement.target.kind == AccountKind::atmosphere) {
        findings.push_back(releaseFinding(shop, state, movement.mass));
    }
    if (movement.target.kind == AccountKind::system) {
        judgeCharge(shop, facts, state, movement, findings);
    }
}

std::optional<Finding> lackingFor(Shop& shop, const CylinderState& state, const Movement& movement) {
    if (movement.source.kind != AccountKind::cylinder) {
        return std::nullopt;
    }
    const auto source = movement.source.name == state.plate.serial ? Result<CylinderState>(state)
                                                                   : stateNamed(shop, movement.source.name);
    return source ? tooMuchTaken(shop, source.value(), movement.mass) : std::nullopt;
}

} // namespace tarebook
