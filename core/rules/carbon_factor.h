#pragma once

#include <string>
#include <vector>

#include "core/quantity/mass.h"
#include "core/refrigerant/catalogue.h"
#include "core/rules/rulebook.h"

namespace tarebook {

/// The global warming potential of contents as a law counts it (gwp.csv of its rulebook), never the
/// catalogue's own sets: laws differ in the values for HFOs.
struct CarbonFactor {
    double gwp = 0; // kg of carbon dioxide equivalent a kg, 100 years
    std::vector<std::string> working;
    std::string section;
    Firmness firmness = Firmness::verified; // the least firm of the rows that were used

    /// Tonnes of carbon dioxide equivalent of a charge, not rounded.
    [[nodiscard]] double tonnes(Mass charge) const;
    /// The charge that reaches so many tonnes, cut to whole milligrams. Requires a potential above zero.
    [[nodiscard]] Mass chargeOf(double tonnesWanted) const;
};

/// By the row of the refrigerant that the contents are (identify()), else the sum by mass over their
/// substances, those without fluorine included. Error: the rulebook has no such table, or no row for a
/// substance, which is named.
[[nodiscard]] Result<CarbonFactor> carbonFactor(const Rulebook& book, const Catalogue& catalogue,
                                                const Contents& contents);

} // namespace tarebook
