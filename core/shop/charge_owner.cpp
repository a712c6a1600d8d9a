#include "core/shop/charge_owner.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "core/shop/plan_rules.h"
#include "core/shop/release_duties.h"

namespace tarebook {

namespace {

std::string ownerName(const std::string& owner) {
    return owner.empty() ? "the shop" : owner;
}

} // namespace

std::optional<Finding> ownerFinding(Shop& shop, const System& system, const Holding& moved,
                                    const std::string& serial) {
    const Display display = shop.display();
    std::map<std::string, Holding> lost; // by owner
    for (const auto& [gas, milligrams] : moved.parts()) {
        if (isUsed(gas.state) && gas.owner != system.customer) {
            lost[gas.owner].add(gas, milligrams);
        }
    }
    if (lost.empty()) {
        return std::nullopt;
    }
    std::string what;
    std::string owners;
    std::vector<std::string> working;
    working.reserve(lost.size());
    for (const auto& [owner, gas] : lost) {
        const std::string name = ownerName(owner);
        const std::string mass = display.mass(gas.total());
        what += fmt::format("{}{} of used {} of {}", what.empty() ? "" : ", ", mass, contentName(gas), name);
        owners += fmt::format("{}{}", owners.empty() ? "" : ", ", name);
        working.push_back(fmt::format("{} has lost {} of {}, now in the equipment of {}", name, mass,
                                      contentName(gas), ownerName(system.customer)));
    }
    Finding finding =
        planFinding("system:" + system.key(), "release.owner", Severity::refusal,
                    fmt::format("{} went into {}, equipment of {}: used gas goes back only to its owner's "
                                "equipment unless reclaimed.",
                                what, system.key(), ownerName(system.customer)),
                    fmt::format("Tell {} what was lost and {} what is in the equipment; settle it with the "
                                "reason and what they answered.",
                                owners, ownerName(system.customer)));
    finding.working = std::move(working);
    if (!serial.empty()) {
        finding.working.push_back(foreignGas(shop, moved, system.customer, serial));
    }
    (void)citeDuty(shop, moved, "reuse", finding);
    finding.overrulable = true;
    return finding;
}

std::optional<Finding> openOwner(Shop& shop, SystemThen& its, const std::vector<Leg>& legs,
                                 Sequence settled) {
    Holding open;
    std::vector<Sequence> entries;
    for (const Leg& leg : legs) {
        if (leg.source == its.account() || leg.moment.seq <= settled) {
            continue;
        }
        Holding foreign;
        for (const auto& [gas, milligrams] : leg.moved.parts()) {
            if (isUsed(gas.state) && gas.owner != its.system().customer &&
                gas.owner != its.ownerOn(leg.moment.occurred)) {
                foreign.add(gas, milligrams);
            }
        }
        if (!foreign.empty()) {
            open.add(foreign);
            entries.push_back(leg.moment.seq);
        }
    }
    auto finding = ownerFinding(shop, its.system(), open, {});
    if (finding) {
        std::sort(entries.begin(), entries.end());
        finding->working.push_back(fmt::format("charged by {} {}", entries.size() == 1 ? "entry" : "entries",
                                               fmt::join(entries, ", ")));
    }
    return finding;
}

} // namespace tarebook
