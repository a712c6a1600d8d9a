#include "core/shop/retest_of.h"

#include <algorithm>

namespace tarebook {

namespace {

bool holdsUsed(const Holding& content) {
    return std::any_of(content.parts().begin(), content.parts().end(), [](const auto& part) {
        return part.first.state == GasState::recovered || part.first.state == GasState::recycled;
    });
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
    facts.condition.damaged = state.fitness == Condition::held;
    if (!state.content.empty() && state.lastFilled) {
        facts.filledOn = std::min(shop.zone().dateOf(*state.lastFilled), on);
    }
    return retest(shop.rulebookOn(on), facts);
}

} // namespace tarebook
