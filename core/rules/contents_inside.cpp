#include "core/rules/contents_inside.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace tarebook {

namespace {

constexpr double kMillionths = 1e6; // shares are compared in whole parts of the milligram sums

struct Sums {
    std::int64_t whole = 0;
    std::int64_t largest = 0;
};

Sums sumsOf(const std::vector<GasInside>& gases) {
    Sums sums;
    for (const GasInside& gas : gases) {
        sums.whole += gas.mass.milligrams();
        sums.largest = std::max(sums.largest, gas.mass.milligrams());
    }
    return sums;
}

/// foreign / whole > share, in whole numbers.
bool above(const Sums& sums, double share) {
    const auto millionths = static_cast<std::int64_t>(std::llround(share * kMillionths));
    return (sums.whole - sums.largest) * static_cast<std::int64_t>(kMillionths) > millionths * sums.whole;
}

} // namespace

double foreignShare(const std::vector<GasInside>& gases) {
    const Sums sums = sumsOf(gases);
    return sums.whole > 0 ? static_cast<double>(sums.whole - sums.largest) / static_cast<double>(sums.whole)
                          : 0;
}

bool countsAsMixed(const ContentsRules& rules, const std::vector<GasInside>& gases) {
    return gases.size() > 1 && above(sumsOf(gases), rules.mixed.value);
}

std::optional<Finding> mixtureFinding(const ContentsRules& rules, const std::vector<GasInside>& gases,
                                      const std::optional<double>& reclaimerShare,
                                      const std::vector<std::string>& origins, const std::string& subject) {
    if (!countsAsMixed(rules, gases)) {
        return {};
    }
    const Sums sums = sumsOf(gases);
    std::string shares;
    for (const GasInside& gas : gases) {
        shares +=
            fmt::format("{}{:.1f} % {}", shares.empty() ? "" : ", ",
                        100 * static_cast<double>(gas.mass.milligrams()) / static_cast<double>(sums.whole),
                        gas.refrigerant);
    }
    Finding finding = rules.finding({rules.mixed.source.section, Firmness::practice}, "contents.mixed",
                                    Severity::refusal, subject, fmt::format("Mixed by accident: {}.", shares),
                                    "Keep it apart, label it MIXED and send it to a reclaimer as mixed.");
    finding.working = origins;
    finding.working.push_back(fmt::format("other refrigerants: {:.2f} % by mass, counted above {:g} % ({})",
                                          100 * foreignShare(gases), 100 * rules.mixed.value,
                                          rules.mixed.source.section));
    if (reclaimerShare) {
        finding.working.push_back(
            fmt::format("the reclaimer's terms, {:g} % (a setting of the shop): {}", 100 * *reclaimerShare,
                        above(sums, *reclaimerShare) ? "taken as mixed" : "still taken as one refrigerant"));
    }
    finding.working.emplace_back("limit, pressure at 55 °C and class are those of the mixture");
    finding.overrulable = true;
    return finding;
}

std::optional<Finding> otherThanKeptFor(const ContentsRules& rules, const CylinderPast& cylinder,
                                        const std::string& subject) {
    const auto& inside = cylinder.inside;
    if (std::find(inside.begin(), inside.end(), kUnknownGas) != inside.end()) {
        return rules.finding(rules.unknownGas, "contents.unknown", Severity::refusal, subject,
                             "Contents not known: nothing may be put on top, and no limit holds.",
                             "Have the contents analysed, then enter the analysis.");
    }
    const std::string& tag = cylinder.tag;
    if (inside.size() != 1 || tag.empty() || tag == kMixedTag || inside.front() == tag) {
        return {};
    }
    Finding finding = rules.finding(rules.sameGas, "contents.other", Severity::caution, subject,
                                    fmt::format("Holds {} but is kept for {}.", inside.front(), tag),
                                    "Change its tag and its register, or empty and evacuate it.");
    finding.overrulable = true;
    return finding;
}

std::optional<Finding> flammableInside(const ContentsRules& rules, const CylinderPast& cylinder, bool asks,
                                       const std::string& subject) {
    if (!asks || !cylinder.flammableRated || *cylinder.flammableRated) {
        return {};
    }
    Finding finding = rules.finding(
        rules.flammable, "contents.flammable", Severity::refusal, subject,
        fmt::format("Holds {}, which can burn, and is not rated for flammable gas.", cylinder.insideName),
        "Have it taken into a rated cylinder by someone qualified; no ignition source, ventilate.");
    finding.working = {fmt::format("inside: {} (the books)", cylinder.insideName),
                       "rated for flammable gas: no (the register)"};
    finding.overrulable = true;
    return finding;
}

} // namespace tarebook
