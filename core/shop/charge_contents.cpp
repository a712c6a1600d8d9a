#include "core/shop/charge_contents.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/rules/contents_on_top.h"
#include "core/shop/findings.h"
#include "core/shop/plan_rules.h"

namespace tarebook {

namespace {

bool belongs(const Shop& shop, const std::string& meant, const Holding& moved) {
    const auto parts = moved.byRefrigerant();
    const auto its = parts.find(meant);
    // A trace that the rulebook does not count as a mixture is not held against it.
    return moved.empty() || (its != parts.end() && its->second * 2 > moved.total().milligrams() &&
                             (parts.size() == 1 || !isMixed(shop, moved)));
}

bool burns(const Shop& shop, const std::string& text) {
    const auto contents = shop.catalogue().contents(text);
    return contents && asksForRated(shop.limitSource().contentsRules(), shop.catalogue(), contents.value());
}

std::string nameOf(const Holding& moved) {
    return moved.byRefrigerant().contains(std::string(kUnknownGas)) ? "gas that nobody has analysed"
                                                                    : contentName(moved);
}

} // namespace

std::optional<Finding> chargeFinding(const Shop& shop, const System& system, const Holding& moved) {
    const std::string meant = designationFor(shop, system.refrigerant);
    if (meant.empty() || belongs(shop, meant, moved)) {
        return std::nullopt;
    }
    const std::string mass = shop.display().mass(moved.total());
    Finding finding = planFinding(
        "system:" + system.key(), "charge.contents", Severity::danger,
        fmt::format("{} of {} went into {}, which is for {}: pressures, oil and safety devices do not fit.",
                    mass, nameOf(moved), system.key(), meant),
        "Switch it off and do not run it. Recover all of it into a cylinder for mixed gas, evacuate, charge "
        "anew, and tell the owner.");
    for (const auto& [refrigerant, milligrams] : moved.byRefrigerant()) {
        finding.working.push_back(
            fmt::format("{} of {}", shop.display().mass(Mass::fromMilligrams(milligrams)), refrigerant));
    }
    finding.working.push_back(fmt::format("{} is for {} (the register)", system.key(), meant));
    const std::string text = contentsText(moved);
    const bool unknown = text.find(kUnknownGas) != std::string::npos;
    if (!burns(shop, meant) && (unknown || burns(shop, text))) {
        finding.headline = fmt::format("{} {} {}", unknown ? "It may burn:" : "It burns:", finding.headline,
                                       "Nothing in it is made for flammable gas.");
        finding.remedy = "No flame, no spark, no switch: ventilate and keep people away. " + finding.remedy;
    }
    return finding;
}

std::optional<Finding> openCharge(Shop& shop, SystemThen& its, const std::vector<Leg>& legs) {
    std::int64_t recovered = 0; // since the charge that is looked at, and not used up by a later one
    Holding open;
    std::vector<Sequence> entries;
    for (const Leg& leg : legs) {
        if (leg.source == its.account()) {
            recovered += leg.moved.total().milligrams();
        } else if (!belongs(shop, its.meant(), leg.moved) &&
                   !belongs(shop, its.meantOn(leg.moment.occurred), leg.moved)) {
            const std::int64_t mass = leg.moved.total().milligrams();
            if (recovered >= mass) {
                recovered -= mass;
            } else {
                open.add(leg.moved);
                entries.push_back(leg.moment.seq);
            }
        }
    }
    auto found = open.empty() ? std::nullopt : chargeFinding(shop, its.system(), open);
    if (found) {
        std::sort(entries.begin(), entries.end());
        found->working.push_back(
            fmt::format("entry {}: not as much was recovered from it since", fmt::join(entries, ", ")));
    }
    return found;
}

} // namespace tarebook
