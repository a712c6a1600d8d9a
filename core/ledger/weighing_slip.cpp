#include "core/ledger/variance_causes.h"

#include <fmt/format.h>

#include "core/ledger/unit_slip.h"

namespace tarebook {

// The whole gross of a cylinder comes out by chance far more seldom than a difference does, and looking at
// the scale again costs nothing: two figures, so that it stands before any slip of an entry.
void explainThisWeighing(const StocktakeLine& line, const Stocktake& all, std::vector<Explanation>& found) {
    for (const UnitSlip slip : {UnitSlip::kilogramsAsPounds, UnitSlip::poundsAsKilograms}) {
        const auto right = withoutSlip(line.gross.milligrams(), slip);
        if (!right || !near(*right, bookGross(line), line)) {
            continue;
        }
        found.push_back({DifferenceCause::unitSlip,
                         fmt::format("this weighing says {}: {} make it {}, and the books say {}",
                                     all.words.mass(line.gross), unitSlipWords(slip),
                                     all.words.mass(Mass::fromMilligrams(*right)),
                                     all.words.mass(Mass::fromMilligrams(bookGross(line)))),
                         {},
                         2,
                         Mass::fromMilligrams(std::abs(*right - bookGross(line)))});
    }
}

} // namespace tarebook
