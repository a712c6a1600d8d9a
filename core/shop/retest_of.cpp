#include "core/shop/retest_of.h"

#include <algorithm>

namespace tarebook {

namespace {

bool holdsUsed(const Holding& content) {
    return std::any_of(content.parts().begin(), content.parts().end(), [](const auto& part) {
        return part.first.state == GasState::recovered || part.first.state == GasState::recycled;
    });
}

bool holdsAmmonia(const Shop& shop, const CylinderState& state) {
    const auto ammonia = shop.catalogue().designation("R-717");
    const auto is = [&](const std::string& designation) {
        return ammonia && (designation == ammonia.value() || designation == "R-717");
    };
    const auto parts = state.content.byRefrigerant();
    return parts.empty()
               ? is(state.plate.refrigerant)
               : std::any_of(parts.begin(), parts.end(), [&](const auto& part) { return is(part.first); });
}

/// Recovery ends a longer interval; the shorter one of ammonia holds for receptacles of ADR and the UN
/// whatever else is true. Of the others a longer interval counts only where the register says that they are
/// kept clean.
ServiceKind serviceOf(const Shop& shop, const CylinderState& state) {
    const Specification& mark = state.plate.specification;
    const bool ammonia = holdsAmmonia(shop, state);
    if (ammonia && mark.metricTestMark()) {
        return ServiceKind::ammonia;
    }
    if (state.recoveryUse || holdsUsed(state.content)) {
        return ServiceKind::recovery;
    }
    if (!state.plate.cleanService) {
        return ServiceKind::general;
    }
    return ammonia ? ServiceKind::ammonia : ServiceKind::clean;
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
    facts.service = serviceOf(shop, state);
    facts.condition.condemned = state.fitness == Condition::condemned;
    setHarms(facts.condition, state);
    facts.serviceUntil = state.plate.serviceUntil;
    if (!state.content.empty() && state.lastFilled) {
        facts.filledOn = std::min(shop.zone().dateOf(*state.lastFilled), on);
    }
    auto verdict = retest(shop.rulebookOn(on), facts);
    const bool late =
        verdict && std::any_of(verdict.value().findings.begin(), verdict.value().findings.end(),
                               [](const Finding& one) { return one.rule == "retest.filled-late"; });
    if (!late) {
        return verdict;
    }
    // The books began with what was inside: that is no filling, the day of it is what was said, if anything.
    const auto entry = shop.store().entry(state.lastFillEntry);
    if (!entry || entry.value().kind != EntryKind::opened) {
        return verdict;
    }
    const auto said = Date::parse(entry.value().body.value("filled", std::string()));
    facts.filledOn = said ? std::optional(std::min(said.value(), on)) : std::nullopt;
    facts.filledSomeDay = !said;
    return retest(shop.rulebookOn(on), facts);
}

} // namespace tarebook
