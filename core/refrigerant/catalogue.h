#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/refrigerant/contents.h"
#include "core/refrigerant/facts.h"
#include "core/refrigerant/pair.h"
#include "core/refrigerant/substance.h"

namespace tarebook {

/// The refrigerants that the program knows: pure substances, ASHRAE 34 blends by mass, and pairs.
class Catalogue {
public:
    /// Reads pure-constants.csv, pure-ancillary-fit.csv, gwp-components.csv, blends.csv,
    /// pair-interaction.csv, pair-asymmetry.csv, pair-volume.csv and pair-class-rule.csv of the folder.
    [[nodiscard]] static Result<Catalogue> load(const std::string& folder);

    /// Reads `R-410A`, `r 410a`, `HFC-134a`, or a mixture by mass, `R-22:0.7+R-410A:0.3`; blends are expanded
    /// to their nominal composition. Shares need not sum to one; they are normalised.
    [[nodiscard]] Result<Contents> contents(std::string_view text) const;
    /// The one spelling that papers use, of any usual spelling: `r 410a` gives `R-410A`. Error names the
    /// nearest, and both where a spelling is short of an isomer (`R-1234ze`).
    [[nodiscard]] Result<std::string> designation(std::string_view text) const;
    /// Designations that contents() understands, as papers show them, by number.
    [[nodiscard]] std::vector<std::string> designations() const;
    /// What is known of a designation in any usual spelling; nullptr when it is none.
    [[nodiscard]] const RefrigerantFacts* facts(std::string_view designation) const;
    /// Of every refrigerant, those without properties as well. Valid as long as the catalogue is.
    [[nodiscard]] std::vector<const RefrigerantFacts*> allFacts() const;
    /// The catalogue's designation for contents within the tolerance of a refrigerant (identify()), else
    /// `MIXED: R-22 70.0 % + R-32 15.0 % + R-125 15.0 %`, by mass, the largest share first.
    [[nodiscard]] std::string displayName(const Contents& contents) const;

    /// What follows from a composition alone: potentials by mass, classes, pseudo-critical point. The safety
    /// group of a mixture that nobody assigned is `none`. Of a pure substance its own facts.
    [[nodiscard]] RefrigerantFacts mixtureFacts(const Contents& contents) const;
    /// This catalogue and the shop's own blend, which contents() then understands by its name. The standard
    /// assigns such a blend nothing; its potentials are computed from its parts. Error: a name that is taken,
    /// or that is or looks like a designation; fewer than two components; a component without property data;
    /// a composition that passes for a refrigerant which has a name already.
    [[nodiscard]] Result<Catalogue> withBlend(const std::string& name, const Contents& contents) const;

    /// nullptr when the designation, as in the tables, is not that of a pure substance with properties.
    [[nodiscard]] const Substance* substance(std::string_view designation) const;
    /// Both from this catalogue. For a pair that no table has: by class, not fitted.
    [[nodiscard]] const Pair& pair(const Substance& one, const Substance& other) const {
        return m_pairs[one.index * m_substances.size() + other.index];
    }

private:
    friend class CatalogueReader;
    [[nodiscard]] Result<std::string> known(std::string_view text) const;

    std::map<std::string, Substance, std::less<>> m_substances;
    std::vector<Pair> m_pairs;                                    // by index of the substances
    std::map<std::string, RefrigerantFacts, std::less<>> m_facts; // by designation of the tables
    std::map<std::string, std::string, std::less<>> m_spellings;  // folded -> designation of the tables
};

} // namespace tarebook
