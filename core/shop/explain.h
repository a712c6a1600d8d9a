#pragma once

#include <string>
#include <vector>

#include "core/shop/card.h"

namespace tarebook {

/// Every rule that was asked about a cylinder, whether it says anything must be done or not: retest, pressure
/// class, each filling limit with its distance from the one that governs, the description for shipping, and
/// behind them what is open on it that these do not say. `planned` overrides the contents that the limits and
/// the pressure are computed for; shipping always looks at what is inside. A question that has no answer is a
/// caution that says why. Nothing is recorded, the cylinder need not be on file.
[[nodiscard]] std::vector<Finding> explanation(const Shop& shop, const CylinderState& state, Date on,
                                               const std::string& planned = {});

/// A cylinder that is only talked about: its marks as they are read over the telephone.
struct TalkedOf {
    Nameplate plate;                // the serial may be empty
    std::string contents;           // what is inside or to be put in, as Catalogue::contents() reads it
    std::optional<Mass> inside;     // how much of it is inside; none: empty
    bool recoveryUse = false;       // it has held recovered gas since its last test
    std::optional<Date> lastFilled; // the last day on which anything went in, where something is inside
};
/// What the books would say of it: limits, due month, and the explanation. Error: the contents are not
/// understood, or the dates do not add up.
struct QuickFigures {
    Limits limits;
    std::string due; // `2028-06`, `never`
    bool fillAllowed = false;
    bool shipAllowed = false;
    std::vector<Finding> findings; // as explanation() gives them
};
[[nodiscard]] Result<QuickFigures> quickFigures(const Shop& shop, const TalkedOf& cylinder, Date on);

} // namespace tarebook
