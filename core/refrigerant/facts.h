#pragma once

#include <optional>
#include <string>

#include "core/quantity/pressure.h"
#include "core/quantity/temperature.h"
#include "core/refrigerant/contents.h"

namespace tarebook {

/// How sure a fact of the catalogue is; said to the person wherever it is below `published`.
enum class Certainty {
    published,  // read in a published table
    calculated, // from published values, by the rule named beside it
    memory,     // from memory: check against your edition
    doubt,      // from memory and sources disagree, or not assigned
};
/// Empty for published; `calculated`, `from memory, check against your edition`, `in doubt, ...`.
[[nodiscard]] std::string certaintyWord(Certainty certainty);

/// A number with what is known of where it comes from.
struct SourcedNumber {
    double value = 0;
    Certainty certainty = Certainty::doubt;
    std::string source;
};

/// Global warming potentials over 100 years come in sets; papers must name theirs.
enum class GwpSet { ar4, ar5, ar6 };
/// `AR4`, `AR5`, `AR6`.
[[nodiscard]] std::string gwpSetName(GwpSet set);

/// What the catalogue knows of a pure refrigerant or a blend besides its saturation.
struct RefrigerantFacts {
    std::string designation;   // as papers show it: `R-410A`
    std::string name;          // of a pure substance: `pentafluoroethane`; empty for blends
    std::string formula;       // of a pure substance
    std::string composition;   // as formulated, `R-32 50 % + R-125 50 %`; the designation when pure
    Contents contents;         // nominal, by mass
    bool blend = false;        // more than one substance
    bool ownBlend = false;     // the shop's own, not of the standard
    bool hasProperties = true; // false: facts only, no saturation
    std::string safetyGroup;   // ASHRAE 34; `none` where the standard assigns none
    Certainty safetyGroupCertainty = Certainty::doubt;
    std::string refrigerantClass; // CFC, HCFC, HFC, HFO, HCFO, HC, PFC, ether, inorganic, ...; of a blend
                                  // the class that the law looks at first (the most ozone depleting)
    std::string componentClasses; // of a blend: `HFC+HFO`
    std::optional<SourcedNumber> odp;
    std::optional<SourcedNumber> gwpAr4; // of a blend by mass from its components
    std::optional<SourcedNumber> gwpAr5;
    std::optional<SourcedNumber> gwpAr6;
    double molarMass = 0;                              // kg/kmol
    Temperature critical = Temperature::fromKelvin(0); // of a blend: pseudo-critical of the density model
    AbsolutePressure criticalPressure;                 // of a blend: by mole share of its components
    std::string equationOfState; // the paper behind the numbers; of a blend those of its components
    Certainty certainty = Certainty::published; // the lowest of the facts that the status speaks of
    std::string status;                         // what is to be checked; empty when nothing is

    /// nullptr where no value is known.
    [[nodiscard]] const SourcedNumber* gwp(GwpSet set) const;
};

} // namespace tarebook
