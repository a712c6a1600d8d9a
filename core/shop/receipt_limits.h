#pragma once

#include "core/shop/returns.h"

namespace tarebook {

/// The most that goes into a cylinder, full of liquid of one of these contents, the densest of them: at
/// -40 degC, the densest that the model of core/refrigerant answers for, with its uncertainty on top. Where
/// none is named or one has no liquid there it is the densest of the catalogue.
[[nodiscard]] Mass fullOfLiquid(const Catalogue& catalogue, const Nameplate& plate,
                                const std::vector<std::string>& contents);

/// Whether a cylinder of a batch can weigh what a person says it weighed at the reclaimer's: not less than it
/// weighs empty by the register, within the shop's weighing tolerance, and no more net mass than fills its
/// water capacity with liquid (fullOfLiquid()). That is more than any rule allows inside: what was
/// overfilled can be entered.
/// Error: it cannot, and why.
[[nodiscard]] Result<bool> canWeigh(Shop& shop, const BatchLine& sent, Mass gross, Mass tare);

} // namespace tarebook
