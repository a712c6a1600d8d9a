#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/shop/batch_planner.h"
#include "core/shop/plan_rules.h"

namespace tarebook {

/// The evacuated empties in the shop that others could be decanted into: each is asked all that the review of
/// a decant asks (planUse()): retest, pressure class, carriage, room. Of a fleet only the roomiest that suit
/// a lot are offered, which are those that free most.
class SpareEmpties {
public:
    SpareEmpties(Shop& shop, const std::vector<FleetRow>& fleet);
    /// Enters under this lot what the empties may hold of what `ask` names.
    void offer(const std::string& lot, const PlanAsk& ask);
    /// All that suit some lot, by serial.
    [[nodiscard]] std::vector<Spare> spares() const;

private:
    [[nodiscard]] const CylinderState* evacuated(const std::string& serial);

    Shop& m_shop;
    std::vector<std::string> m_roomiest; // empties by their size, the largest first
    std::map<std::string, std::optional<CylinderState>> m_states;
    std::map<std::string, Spare> m_spares;
};

} // namespace tarebook
