#pragma once

#include <string>

#include "core/shop/card.h"

namespace tarebook {

/// How a cylinder's contents are described on a shipping paper, or why they cannot be.
struct Shipping {
    std::string text;          // `UN1018, Chlorodifluoromethane, 2.2`; empty when there is none
    std::string problem;       // empty when the description stands
    std::string labels = {};   // hazard labels, as `2.2`; empty: none, or not known
    std::string division = {}; // `2.1`; empty: not regulated, or not known
};
[[nodiscard]] Shipping shippingOf(const Shop& shop, const CylinderState& state);

/// Why a cylinder may not be offered for transport, and the remedy; both empty when it may.
struct TransportVerdict {
    std::string reason;
    std::string remedy;
    Finding rule = {}; // what says so: citation, edition, firmness, working, row; no rule named: the books
};
[[nodiscard]] TransportVerdict transportOf(const Shop& shop, const CylinderState& state, Date on);

} // namespace tarebook
