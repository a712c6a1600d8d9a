#pragma once

#include <optional>
#include <string>

#include "core/base/result.h"
#include "core/rules/fill_rules.h"
#include "core/rules/finding.h"
#include "core/rules/rulebook.h"

namespace tarebook {

/// A figure of a rule and where it comes from.
struct Figure {
    double value = 0;
    RowSource source;
};

/// The table contents of a rulebook, made ready for use: what may go on top of what, from which share on
/// another gas counts, and what a pressure at rest may be read for.
struct ContentsRules {
    std::string edition;
    RowSource sameGas;    // only the same refrigerant on a known content
    RowSource unknownGas; // only into a clean empty, nothing on top
    RowSource change;     // of refrigerant: only after an evacuation on record
    RowSource burnOut;    // apart
    RowSource flammable;  // only into what is rated for it
    RowSource clear;      // a recovery machine, before it takes another refrigerant
    /// By mass, 0 to 1, from which a mixture outside the catalogue asks for a rated cylinder; a rulebook
    /// without them asks from the first trace on.
    std::optional<Figure> flammableHydrocarbon = {};
    std::optional<Figure> flammableOther = {};
    Figure mixed;             // share by mass, 0 to 1, above which other refrigerants count
    Figure air;               // share by volume of the gas space, 0 to 1, above which air is too much
    Figure restHours;         // before a pressure is read
    Figure leastCelsius;      // at which it is compared
    Figure gaugeKilopascal;   // error of a gauge, half width
    Figure thermometerKelvin; // error of a thermometer, half width

    /// Error names the table, the row and the cell that is missing or cannot be read.
    [[nodiscard]] static Result<ContentsRules> from(const Rulebook& rulebook);
    /// A finding of one of these rules: citation, edition and firmness of the row.
    [[nodiscard]] Finding finding(const RowSource& source, std::string rule, Severity severity,
                                  const std::string& subject, std::string headline, std::string remedy) const;
};

} // namespace tarebook
