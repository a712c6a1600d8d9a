#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/refrigerant/catalogue.h"
#include "core/rules/contents_rules.h"
#include "core/rules/flammability.h"

namespace tarebook {

/// A designation as the books keep it for a gas that nobody has analysed.
inline constexpr std::string_view kUnknownGas = "unknown";
/// What the register says a cylinder is kept for when it takes mixed gas.
inline constexpr std::string_view kMixedTag = "mixed";

/// A cylinder as the rules of contents see it; designations as the catalogue shows them.
struct CylinderPast {
    std::vector<std::string> inside;         // none: empty
    std::string insideName;                  // of what is inside, for the person
    std::string lastHeld;                    // of an empty one, by the books; empty: they know of nothing
    std::string tag;                         // what it is kept for: a designation, kMixedTag, or empty
    bool evacuated = false;                  // since it last held anything
    bool burnOut = false;                    // kept for gas from burn-outs
    std::optional<bool> flammableRated = {}; // none: nothing is on record
};

/// Gas that is to go in.
struct IncomingGas {
    std::string refrigerant; // designation, a mixture as Catalogue::contents() reads it, or kUnknownGas
    Contents contents;       // empty where it is not known
    bool burnOut = false;
};

/// What the rules say of putting one on the other.
struct OnTop {
    std::vector<Finding> findings; // a refusal among them: it must not go in
    bool partFilled = false;       // holds the same already
    bool evacuateFirst = false;    // empty, and nothing says what was in it or that it was evacuated
};

/// Whether the gas may go into the cylinder: same refrigerant on a known content, unknown gas only into a
/// clean empty, another refrigerant only after an evacuation on record, burn-out apart. An empty cylinder may
/// hold a rest of what was last in it: without an evacuation on record it takes again what it held last, or
/// what its tag says where the books know of nothing. One kept for mixed gas takes what comes, save for
/// burn-out. Findings `plan.contents`, `plan.evacuation`, `plan.tag`, `plan.burn-out`.
[[nodiscard]] OnTop onTop(const ContentsRules& rules, const CylinderPast& cylinder, const IncomingGas& gas,
                          const std::string& subject);

/// Whether contents ask for a cylinder rated for flammable gas: those that burn, and mixtures outside the
/// catalogue with a part that burns, from the shares on that the rulebook names or, where it names none, from
/// the first trace on: the safe side.
[[nodiscard]] bool asksForRated(const ContentsRules& rules, const Catalogue& catalogue,
                                const Contents& contents);

/// That a gas asks for what is rated for flammable gas, and why.
struct Burning {
    std::string says; // `R-32 burns`, or `may burn`
    RowSource source; // the row that asks for it
    std::vector<std::string> working;
};
/// Nothing where asksForRated() says no.
[[nodiscard]] std::optional<Burning> burningOf(const ContentsRules& rules, const Catalogue& catalogue,
                                               const IncomingGas& gas);
/// `rated for flammable gas: yes (the register)`, for a working.
[[nodiscard]] std::string ratedLine(const std::optional<bool>& rated);

/// Flammable gas that is to go into a cylinder: refused where the register says that it is not rated, a
/// caution where it says nothing, else a note about the machine. Finding `plan.flammable`.
[[nodiscard]] std::optional<Finding> flammableFinding(const ContentsRules& rules, const Catalogue& catalogue,
                                                      const CylinderPast& cylinder, const IncomingGas& gas,
                                                      const std::string& subject);

} // namespace tarebook
