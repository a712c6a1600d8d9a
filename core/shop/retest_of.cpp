#include "core/shop/retest_of.h"

#include <algorithm>

namespace tarebook {

namespace {

bool holdsUsed(const Holding& content) {
    return std::any_of(content.parts().begin(), content.parts().end(), [](const auto& part) {
        return part.first.state == GasState::recovered || part.first.state == GasState::recycled;
    });
}

void setHarms(CylinderCondition& condition, const CylinderState& state) {
    const auto has = [&](Harm harm) { return state.harms.has(harm); };
    condition.damaged = has(Harm::damage);
    condition.leaking = has(Harm::leak);
    condition.heatDamaged = has(Harm::heat);
    condition.overPressurised = has(Harm::overPressure);
    condition.wallMetalRemoved = has(Harm::wallMetal);
    condition.heldClass8Liquid = has(Harm::corrosive);
    condition.ordered = has(Harm::ordered);
    condition.rejected = has(Harm::rejected);
    condition.heatDamagedBefore = state.harmsBefore.has(Harm::heat);
    condition.overPressurisedBefore = state.harmsBefore.has(Harm::overPressure);
    if (state.markedTare) {
        condition.officialTare = *state.markedTare;
        condition.weighedTare = state.plate.tare;
    }
}

} // namespace

Result<RetestVerdict> retestOf(const Shop& shop, const CylinderState& state, Date on) {
    RetestFacts facts{state.plate.specification,
                      state.plate.manufactured,
                      state.plate.lastTest,
                      {},
                      {},
                      {},
                      {},
                      {},
                      {},
                      {},
                      on};
    const auto suffix = parseMarkSuffix(state.plate.markSuffix);
    facts.markSuffix = suffix ? suffix.value() : std::string();
    facts.waterCapacity = state.plate.waterCapacity;
    facts.usedForRecoverySinceTest = state.recoveryUse;
    facts.service =
        state.recoveryUse || holdsUsed(state.content) ? ServiceKind::recovery : ServiceKind::general;
    facts.condition.condemned = state.fitness == Condition::condemned;
    setHarms(facts.condition, state);
    facts.serviceUntil = state.plate.serviceUntil;
    if (!state.content.empty() && state.lastFilled) {
        facts.filledOn = std::min(shop.zone().dateOf(*state.lastFilled), on);
    }
    return retest(shop.rulebookOn(on), facts);
}

} // namespace tarebook
