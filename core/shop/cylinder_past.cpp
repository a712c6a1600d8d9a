#include "core/shop/cylinder_past.h"

#include "core/shop/card.h"

namespace tarebook {

CylinderPast pastOf(const CylinderState& state, std::string lastHeld) {
    CylinderPast past;
    for (const GasInside& gas : gasesIn(state.content)) {
        past.inside.push_back(gas.refrigerant);
    }
    past.insideName = contentName(state.content);
    past.lastHeld = std::move(lastHeld);
    past.tag = state.plate.refrigerant;
    past.evacuated = state.evacuated;
    past.burnOut = state.plate.burnOut;
    past.flammableRated = state.plate.flammableRated;
    return past;
}

std::vector<GasInside> gasesIn(const Holding& content) {
    std::vector<GasInside> gases;
    for (const auto& [refrigerant, milligrams] : content.byRefrigerant()) {
        gases.push_back({refrigerant, Mass::fromMilligrams(milligrams)});
    }
    return gases;
}

} // namespace tarebook
