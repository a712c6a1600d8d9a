#include "core/shop/owners_together.h"

#include <map>

#include <fmt/format.h>

#include "core/shop/findings.h"
#include "core/shop/plan_rules.h"
#include "core/shop/release_duties.h"

namespace tarebook {

std::optional<Finding> ownersTogether(const Shop& shop, const CylinderState& state) {
    if (state.mixedAccepted || isMixed(shop, state.content)) {
        return std::nullopt;
    }
    std::map<std::string, std::int64_t> used; // by owner
    std::int64_t clean = 0;
    for (const auto& [gas, milligrams] : state.content.parts()) {
        if (gas.state == GasState::recovered || gas.state == GasState::recycled) {
            used[gas.owner] += milligrams;
        } else {
            clean += milligrams;
        }
    }
    if (used.empty() || (used.size() == 1 && clean == 0)) {
        return std::nullopt;
    }
    const Display display = shop.display();
    const auto shown = [&](std::int64_t mass) { return display.mass(Mass::fromMilligrams(mass)); };
    std::string owners;
    std::string masses;
    for (const auto& [owner, milligrams] : used) {
        const std::string name = owner.empty() ? "the shop" : owner;
        owners += (owners.empty() ? "" : " and ") + name;
        masses += fmt::format("{}{} of {}", masses.empty() ? "" : ", ", shown(milligrams), name);
    }
    const bool one = used.size() == 1;
    Finding finding = planFinding(
        Account::cylinder(state.plate.serial).text(), "contents.owners", Severity::caution,
        one ? fmt::format("{} of new or reclaimed gas became used gas: {} came to it.", shown(clean), masses)
            : fmt::format("Used gas of {} is together.", owners),
        one ? fmt::format("From now on all of it goes only into equipment of {}, or to the reclaimer: mark "
                          "the cylinder so.",
                          owners)
            : std::string("From now on it goes into nobody's equipment: keep it for the reclaimer, and tell "
                          "both owners."));
    finding.working.push_back("used: " + masses);
    if (clean > 0) {
        finding.working.push_back(fmt::format("new or reclaimed: {}", shown(clean)));
    }
    if (!one || !citeDuty(shop, state.content, "reuse-in-part", finding)) {
        (void)citeDuty(shop, state.content, "reuse", finding);
    }
    return finding;
}

} // namespace tarebook
