#include "core/shop/recovery_contents.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "core/rules/contents_on_top.h"
#include "core/shop/plan_rules.h"

namespace tarebook {

namespace {

bool canBurn(const Shop& shop, const std::string& text) {
    const auto contents = shop.catalogue().contents(text);
    return contents && asksForRated(shop.limitSource().contentsRules(), shop.catalogue(), contents.value());
}

Finding burningOut(const Shop& shop, const System& system, const std::string& what) {
    Finding finding = planFinding(
        "system:" + system.key(), "recovery.contents", Severity::danger,
        fmt::format("It burns: {} came out of {}, which is for {}. Nothing in it is made for flammable gas.",
                    what, system.key(), designationFor(shop, system.refrigerant)),
        "No flame, no spark, no switch: ventilate and keep people away. Recover all of it with a machine and "
        "into a cylinder that are rated for it, mark the system, and tell the owner; settle it once somebody "
        "qualified has found what is inside, or change the register if the system is for that gas.");
    finding.overrulable = true;
    return finding;
}

} // namespace

std::optional<Finding> recoveryFinding(const Shop& shop, const System& system,
                                       const std::string& refrigerant) {
    const std::string meant = designationFor(shop, system.refrigerant);
    if (meant.empty() || refrigerant == meant) {
        return std::nullopt;
    }
    if (canBurn(shop, refrigerant) && !canBurn(shop, meant)) {
        return burningOut(shop, system, refrigerant);
    }
    return planFinding(
        "system:" + system.key(), "recovery.contents", Severity::caution,
        refrigerant == kUnknownGas
            ? fmt::format("What came out of {} is not known; it is for {}.", system.key(), meant)
            : fmt::format("{} came out of {}, which is for {}.", refrigerant, system.key(), meant),
        "Look at the system's plate. Was it charged with another gas or retrofitted? Have what "
        "came out analysed, and do not run the system until it is known.");
}

std::optional<Finding> openRecovery(Shop& shop, SystemThen& its, const std::vector<Leg>& legs,
                                    Sequence settled) {
    std::map<std::string, std::int64_t>
        charged; // other gas that the books had put in, and that is not out yet
    Holding open;
    std::vector<Sequence> entries;
    for (auto leg = legs.rbegin(); leg != legs.rend(); ++leg) {
        const bool out = leg->source == its.account();
        for (const auto& [gas, mass] : leg->moved.parts()) {
            if (its.meant().empty() || gas.refrigerant == its.meant()) {
                continue;
            }
            std::int64_t& inside = charged[gas.refrigerant];
            if (!out) {
                inside += mass;
                continue;
            }
            const std::int64_t explained = std::min(inside, mass);
            inside -= explained;
            if (explained == mass || leg->moment.seq <= settled || !canBurn(shop, gas.refrigerant) ||
                canBurn(shop, its.meant()) || its.meantOn(leg->moment.occurred) == gas.refrigerant) {
                continue;
            }
            open.add(gas, mass - explained);
            if (entries.empty() || entries.back() != leg->moment.seq) {
                entries.push_back(leg->moment.seq);
            }
        }
    }
    if (open.empty()) {
        return std::nullopt;
    }
    Finding finding = burningOut(
        shop, its.system(), fmt::format("{} of {}", shop.display().mass(open.total()), contentName(open)));
    finding.working = {fmt::format("entry {}: the books never put it in", fmt::join(entries, ", ")),
                       fmt::format("{} is for {} (the register)", its.system().key(), its.meant())};
    return finding;
}

} // namespace tarebook
