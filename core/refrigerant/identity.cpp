#include "core/refrigerant/identity.h"

#include <algorithm>
#include <cmath>

namespace tarebook {

namespace {

constexpr double kForeignShare = 0.005;
constexpr double kBand = 0.02;

std::optional<Identity> compared(const RefrigerantFacts& facts, const Contents& contents) {
    Identity identity{facts.designation, 0, 1};
    for (const Component& nominal : facts.contents) {
        double share = 0;
        for (const Component& component : contents) {
            share = component.designation == nominal.designation ? component.massShare : share;
        }
        identity.foreignShare -= share;
        const double deviation = std::abs(share - nominal.massShare);
        if (facts.blend && deviation > std::min(kBand, nominal.massShare / 2) + 1e-9) {
            return std::nullopt;
        }
        identity.largestDeviation = std::max(identity.largestDeviation, deviation * 100);
    }
    identity.foreignShare = std::max(identity.foreignShare, 0.0);
    return identity.foreignShare <= kForeignShare + 1e-9 ? std::optional(identity) : std::nullopt;
}

} // namespace

std::optional<Identity> identify(const Catalogue& catalogue, const Contents& contents) {
    std::optional<Identity> nearest;
    for (const RefrigerantFacts* facts : catalogue.allFacts()) {
        const auto identity = facts->hasProperties ? compared(*facts, contents) : std::nullopt;
        if (identity && (!nearest || identity->largestDeviation < nearest->largestDeviation - 1e-9)) {
            nearest = identity;
        }
    }
    return nearest;
}

} // namespace tarebook
