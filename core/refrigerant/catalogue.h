#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/refrigerant/substance.h"

namespace tarebook {

/// A share by mass of one pure substance.
struct Component {
    std::string designation;
    double massShare = 0;
};
/// Shares by mass, sorted by designation, each above zero, summing to 1.
using Contents = std::vector<Component>;

/// Constants of a pair in the mixture model of resources/refrigerants/pair-interaction.csv.
struct Pair {
    double interaction = 0; // k at 313.15 K
    double interactionPerKelvin = 0;
    double densityInteraction = 0;   // l
    bool fitted = false;             // the reference has parameters fitted to data for this pair
    double pressureErrorPercent = 5; // largest deviation of the binary fit
};

/// The refrigerants that the program knows: pure substances, ASHRAE 34 blends by mass, and pairs.
class Catalogue {
public:
    /// Reads pure-constants.csv, pure-ancillary-fit.csv, blends.csv and pair-interaction.csv of the folder.
    [[nodiscard]] static Result<Catalogue> load(const std::string& folder);

    /// Reads `R-410A`, `r 410a`, `HFC-134a`, or a mixture by mass, `R-22:0.7+R-410A:0.3`; blends are expanded
    /// to their nominal composition. Shares need not sum to one; they are normalised.
    [[nodiscard]] Result<Contents> contents(std::string_view text) const;
    /// nullptr when the designation is not that of a pure substance with properties.
    [[nodiscard]] const Substance* substance(std::string_view designation) const;
    /// For a pair that is not in the table: no interaction, not fitted.
    [[nodiscard]] Pair pair(const std::string& one, const std::string& other) const;

private:
    [[nodiscard]] Result<Contents> single(std::string_view text) const;

    std::map<std::string, Substance, std::less<>> m_substances;
    std::map<std::string, Contents, std::less<>> m_blends;
    std::map<std::pair<std::string, std::string>, Pair> m_pairs;
    std::map<std::string, std::string, std::less<>> m_spellings; // folded -> designation
};

} // namespace tarebook
