#include "core/shop/spare_empties.h"

#include <algorithm>
#include <tuple>

namespace tarebook {

namespace {

constexpr int kMostOffered = 20; // of a lot
constexpr int kMostAsked = 60;   // of which some may not suit

} // namespace

SpareEmpties::SpareEmpties(Shop& shop, const std::vector<FleetRow>& fleet) : m_shop(shop) {
    std::vector<const FleetRow*> empties;
    for (const FleetRow& row : fleet) {
        if (row.netMg == 0 && row.condition == "serviceable" && row.holder.empty()) {
            empties.push_back(&row);
        }
    }
    std::sort(empties.begin(), empties.end(), [](const FleetRow* one, const FleetRow* other) {
        return std::tie(other->waterCapacityMg, one->serial) < std::tie(one->waterCapacityMg, other->serial);
    });
    m_roomiest.reserve(empties.size());
    for (const FleetRow* row : empties) {
        m_roomiest.push_back(row->serial);
    }
}

const CylinderState* SpareEmpties::evacuated(const std::string& serial) {
    auto known = m_states.find(serial);
    if (known == m_states.end()) {
        auto state = m_shop.store().cylinder(serial);
        known = m_states.emplace(serial, state ? std::move(state).value() : std::nullopt).first;
    }
    const std::optional<CylinderState>& its = known->second;
    return its && its->evacuated && its->content.empty() ? &*its : nullptr;
}

void SpareEmpties::offer(const std::string& lot, const PlanAsk& ask) {
    int offered = 0;
    int asked = 0;
    for (const std::string& serial : m_roomiest) {
        if (offered == kMostOffered || asked == kMostAsked) {
            return;
        }
        const CylinderState* state = evacuated(serial);
        if (state == nullptr) {
            continue;
        }
        ++asked;
        const PlanUse use = planUse(m_shop, *state, ask);
        if (use.fits() && use.room > Mass()) {
            Spare& spare = m_spares[serial];
            spare.serial = serial;
            spare.tare = state->plate.tare;
            spare.holds[lot] = use.room;
            ++offered;
        }
    }
}

std::vector<Spare> SpareEmpties::spares() const {
    std::vector<Spare> all;
    all.reserve(m_spares.size());
    for (const auto& [serial, spare] : m_spares) {
        all.push_back(spare);
    }
    return all;
}

} // namespace tarebook
