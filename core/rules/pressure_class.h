#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/cylinder/specification.h"
#include "core/quantity/pressure.h"
#include "core/refrigerant/catalogue.h"
#include "core/rules/finding.h"
#include "core/rules/liquid_states.h"
#include "core/rules/rulebook.h"

namespace tarebook {

/// Whether a cylinder suits the pressure of contents.
struct PressureVerdict {
    std::optional<GaugePressure> at55;     // bubble pressure at 55 degC; none: no liquid there
    std::optional<GaugePressure> compared; // the pressure that the rule looks at: at 55 or at 65 degC
    std::optional<GaugePressure> limit;    // 5/4 of the marked pressure, or PH; none: the mark bears none
    bool suits = true;
    bool thin = false; // the margin is within 1 % or the model's uncertainty: ask the supplier's table too
    std::string rule;  // `pressure.named-row`, `pressure.five-quarters`, `pressure.generic-row`,
                       // `pressure.unmarked`, `pressure.no-liquid`, `pressure.test-65C`,
                       // `pressure.petroleum-row`, `pressure.toxic-mixture`,
                       // `pressure.listed-test`, `pressure.mark-not-accepted`
    std::string working;
    std::string citation;
    Firmness firmness = Firmness::verified;
    std::string edition;
    std::string place = {};                     // of the row behind it, as RuleRow::place
    std::optional<Temperature> comparedAt = {}; // where `compared` was taken

    /// Danger where it does not suit, caution where the margin is thin, nothing otherwise.
    [[nodiscard]] std::vector<Finding> findings(const std::string& subject) const;
};

/// 5/4 of the marked service pressure at 55 degC (49 CFR 173.301(a)(8)); a row of 173.304a(a)(2) that names
/// the gas wins over the bare comparison, in both directions; a refrigerant without a row of its own that is
/// not known to burn needs at least the 240 psig of the generic row (a reading: another generic row has no
/// floor). Within a few kelvin of the contents' critical point the
/// pressure is extrapolated and what is not clear counts as too high; where there is no liquid at all the
/// answer is no, with the reason. UN and EN marks: the test pressure of P200 table 2, or the pressure at 65
/// degC (P200 (5)). Error: the rulebook's tables cannot be read.
[[nodiscard]] Result<PressureVerdict> pressureClass(const Rulebook& rulebook, const Catalogue& catalogue,
                                                    const Specification& specification,
                                                    const Contents& contents);
/// The same with tables and properties at hand.
[[nodiscard]] PressureVerdict pressureClass(const FillRules& rules, const LiquidStates& states,
                                            const Specification& specification);

} // namespace tarebook
