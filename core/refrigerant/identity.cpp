#include "core/refrigerant/identity.h"

#include <algorithm>
#include <cmath>

namespace tarebook {

namespace {

constexpr double kForeignShare = 0.005;
constexpr double kBand = 0.02;
constexpr double kRounding = 1e-9;

std::optional<Identity> compared(const RefrigerantFacts& facts, const Contents& contents) {
    Identity identity{facts.designation, 0, 1};
    for (const Component& nominal : facts.contents) {
        double share = 0;
        for (const Component& component : contents) {
            share = component.designation == nominal.designation ? component.massShare : share;
        }
        identity.foreignShare -= share;
        const double deviation = std::abs(share - nominal.massShare);
        if (facts.blend && deviation > std::min(kBand, nominal.massShare / 2) + kRounding) {
            return std::nullopt;
        }
        identity.largestDeviation = std::max(identity.largestDeviation, deviation * 100);
    }
    identity.foreignShare = std::max(identity.foreignShare, 0.0);
    return identity.foreignShare <= kForeignShare + kRounding ? std::optional(identity) : std::nullopt;
}

} // namespace

std::optional<Identity> identify(const Catalogue& catalogue, const Contents& contents) {
    // None of a refrigerant's components may be missing, and what does not belong to it must be little.
    const auto major = static_cast<std::size_t>(
        std::count_if(contents.begin(), contents.end(), [](const Component& component) {
            return component.massShare > kForeignShare + kRounding;
        }));
    std::optional<Identity> nearest;
    std::optional<Identity> own;
    for (const RefrigerantFacts* facts : catalogue.allFacts()) {
        const std::size_t count = facts->contents.size();
        if (count < major || count > contents.size() || !facts->hasProperties) {
            continue;
        }
        const auto identity = compared(*facts, contents);
        std::optional<Identity>& best = facts->ownBlend ? own : nearest;
        if (identity && (!best || identity->largestDeviation < best->largestDeviation - kRounding)) {
            best = identity;
        }
    }
    return nearest ? nearest : own;
}

} // namespace tarebook
