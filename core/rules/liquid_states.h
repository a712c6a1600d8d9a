#pragma once

#include <map>
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
    double kilogramsPerKilomole = 0;
    std::map<Temperature, Saturation> states;
    /// Bubble pressures a few kelvin above the hottest state, where the liquid is too near its critical point
    /// for the model: straight in log p over 1/T through the two hottest states, within 2 %.
    std::map<Temperature, AbsolutePressure> extrapolated;
    std::string problem; // of the hottest temperature that has no state; empty when all have

    /// nullptr when the contents have no liquid there, or the temperature was not asked for.
    [[nodiscard]] const Saturation* at(Temperature temperature) const;

    /// At 60 degF (for hydrocarbons), 55 degC and every temperature of the conditions. `extra`: one more, of
    /// the shop.
    [[nodiscard]] static LiquidStates of(const Catalogue& catalogue, const Contents& contents,
                                         const FillRules& rules, const std::vector<Temperature>& extra = {});
};

inline constexpr Temperature kRatingTemperature = Temperature::fromCelsius(55);        // 131 degF
inline constexpr Temperature kGravityTemperature = Temperature::fromKelvin(288.70556); // 60 degF

} // namespace tarebook
