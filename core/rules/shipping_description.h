#pragma once

#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/refrigerant/catalogue.h"
#include "core/rules/finding.h"
#include "core/rules/rulebook.h"

namespace tarebook {

/// How contents are described on a shipping paper.
struct ShippingDescription {
    bool regulated = true; // false: outside Class 2 and without a number; none may be printed
    std::string unNumber;  // `UN1018`
    std::string properShippingName;
    std::string alternativeName;             // equally right, where the table has one
    std::vector<std::string> technicalNames; // for n.o.s. entries, in the order to be printed
    std::string division;                    // `2.1`, `2.2`, `2.3`
    std::string subsidiary;                  // hazard beside it, as `8`; empty for most
    std::string labels;                      // `2.1`, `2.3, 8`
    std::string
        text; // in the order of the law, `UN1018, Chlorodifluoromethane, 2.2`; empty when not regulated
    std::string citation;
    std::string edition;
    Firmness firmness = Firmness::verified;
    std::vector<std::string> working; // how the entry was found; remarks of the row
};

/// Finds the entry for contents: a refrigerant of the table `un-numbers` by its composition (each share
/// within 2 points of the nominal one, parts below 0.5 % by mass left out: common practice, the limit of AHRI
/// 700 for other refrigerants); else an n.o.s. entry. A mixture counts as nonflammable only where it is a
/// blend of compositions that the table or ASHRAE class A1 calls so: what is made of nonflammable mixtures is
/// nonflammable (the flammability sum of ISO 10156 is linear, from memory); anything else with a flammable
/// part goes as 2.1. 49 CFR 172.202(a) order, 172.203(k) technical names. Error: no contents; a toxic part in
/// a mixture; a part that no source classes; a liquid. The shipper answers for the class in the end.
[[nodiscard]] Result<ShippingDescription>
shippingDescription(const Rulebook& rulebook, const Catalogue& catalogue, const Contents& contents);

} // namespace tarebook
