#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/quantity/mass.h"
#include "core/rules/contents_on_top.h"

namespace tarebook {

/// A refrigerant in a cylinder, by name and mass; owners and states put together.
struct GasInside {
    std::string refrigerant;
    Mass mass;
};

/// Share by mass, 0 to 1, of what is not the main refrigerant; 0 of nothing.
[[nodiscard]] double foreignShare(const std::vector<GasInside>& gases);
/// Whether that share counts: above the figure `contents.mixed` of the rulebook. A milligram decides.
[[nodiscard]] bool countsAsMixed(const ContentsRules& rules, const std::vector<GasInside>& gases);

/// Gases mixed by accident, with the shares and what they mean: finding `contents.mixed`, nothing where the
/// share does not count. `reclaimerShare`: by mass, above which the shop's reclaimer takes it as mixed, where
/// the shop has entered that. `origins`: lines that say what came from where.
[[nodiscard]] std::optional<Finding> mixtureFinding(const ContentsRules& rules,
                                                    const std::vector<GasInside>& gases,
                                                    const std::optional<double>& reclaimerShare,
                                                    const std::vector<std::string>& origins,
                                                    const std::string& subject);

/// Contents that nobody knows (`contents.unknown`), or that are not what the cylinder is kept for
/// (`contents.other`).
[[nodiscard]] std::optional<Finding>
otherThanKeptFor(const ContentsRules& rules, const CylinderPast& cylinder, const std::string& subject);

/// Flammable gas in a cylinder that the register says is not rated for it: `contents.flammable`. `asks`: as
/// asksForRated().
[[nodiscard]] std::optional<Finding> flammableInside(const ContentsRules& rules, const CylinderPast& cylinder,
                                                     bool asks, const std::string& subject);

} // namespace tarebook
