#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/quantity/pressure.h"
#include "core/quantity/temperature.h"
#include "core/refrigerant/catalogue.h"
#include "core/refrigerant/saturation.h"
#include "core/rules/fill_rules.h"
#include "core/rules/flammability.h"

namespace tarebook {

/// What the rules ask of contents, computed once: with these at hand a limit costs microseconds. `problem` is
/// why a temperature has no state (no liquid there, or no data).
struct LiquidStates {
    Contents contents;
    bool petroleum = false; // hydrocarbons only: propane, butanes, propylene, with ethane
    Flammability flammability = Flammability::unknown;
    std::string division;        // for carriage, of a gas that the table un-numbers has: 2.1, 2.2, 2.3
    bool toxicInMixture = false; // a mixture with a part of Division 2.3
    double kilogramsPerKilomole = 0;
    std::map<Temperature, Saturation> states;
    /// Bubble pressures a few kelvin above the hottest state, where the liquid is too near its critical point
    /// for the model: straight in log p over 1/T through the two hottest states, within 2 %.
    std::map<Temperature, AbsolutePressure> extrapolated;
    std::string problem; // of the hottest temperature that has no state; empty when all have

    /// Of Division 2.1 where the table says, otherwise as ASHRAE 34 has it: not the same (R-1234ze(E) is A2L
    /// and 2.2). False where neither says.
    [[nodiscard]] bool burnsInCarriage() const;
    /// nullptr when the contents have no liquid there, or the temperature was not asked for.
    [[nodiscard]] const Saturation* at(Temperature temperature) const;

    /// Why this packaging may not hold them at all; nothing where none of the rows speaks against it.
    [[nodiscard]] std::optional<PackagingProblem> problemOf(const FillRules& rules,
                                                            const Specification& specification) const;

    /// At 60 degF (for hydrocarbons), 55 degC and every temperature of the conditions. `extra`: one more, of
    /// the shop.
    [[nodiscard]] static LiquidStates of(const Catalogue& catalogue, const Contents& contents,
                                         const FillRules& rules, const std::vector<Temperature>& extra = {});
};

inline constexpr Temperature kRatingTemperature = Temperature::fromCelsius(55);        // 131 degF
inline constexpr Temperature kGravityTemperature = Temperature::fromKelvin(288.70556); // 60 degF

} // namespace tarebook
