#include "core/rules/fitting_pairs.h"

#include <algorithm>
#include <array>
#include <map>
#include <tuple>

#include "core/refrigerant/identity.h"

namespace tarebook {

namespace {

constexpr std::array kShares = {0.0, 0.01, 0.02, 0.05, 0.1, 0.15, 0.2, 0.3,
                                0.4, 0.5,  0.6,  0.7,  0.8, 0.9,  0.95};

Contents mixed(const Contents& one, const Contents& other, double share) {
    std::map<std::string, double> shares;
    for (const Component& part : one) {
        shares[part.designation] += (1 - share) * part.massShare;
    }
    for (const Component& part : other) {
        shares[part.designation] += share * part.massShare;
    }
    Contents contents;
    for (const auto& [designation, massShare] : shares) {
        if (massShare > 0) {
            contents.push_back({designation, massShare});
        }
    }
    return contents;
}

/// The least share that brings the pressure there; 0 when none does.
double leastShare(const Catalogue& catalogue, const Contents& declared, const Contents& other,
                  Temperature temperature, double measured) {
    double before = 0;
    double beforeOff = 0;
    bool known = false;
    for (const double share : kShares) {
        const auto state = saturationAt(catalogue, mixed(declared, other, share), temperature);
        if (!state) {
            known = false;
            continue;
        }
        const double off = state.value().bubble.kilopascal() - measured;
        if (known && (off > 0) != (beforeOff > 0)) {
            const double found = before + (share - before) * beforeOff / (beforeOff - off);
            return std::max(found, kShares[1]);
        }
        before = share;
        beforeOff = off;
        known = true;
    }
    return 0;
}

} // namespace

std::vector<FittingPair> fittingPairs(const Catalogue& catalogue, const Contents& declared,
                                      const std::vector<std::string>& candidates, Temperature temperature,
                                      AbsolutePressure measured) {
    std::vector<FittingPair> pairs;
    const auto its = identify(catalogue, declared);
    for (const std::string& designation : candidates) {
        const auto other = catalogue.contents(designation);
        if (!other || (its && its->designation == designation)) {
            continue;
        }
        const double share =
            leastShare(catalogue, declared, other.value(), temperature, measured.kilopascal());
        if (share > 0) {
            pairs.push_back({designation, share});
        }
    }
    std::sort(pairs.begin(), pairs.end(), [](const FittingPair& one, const FittingPair& other) {
        return std::tie(one.share, one.designation) < std::tie(other.share, other.designation);
    });
    pairs.resize(std::min(pairs.size(), kMostOthers));
    return pairs;
}

} // namespace tarebook
