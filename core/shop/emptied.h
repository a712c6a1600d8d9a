#pragma once

#include <optional>
#include <string>

#include "core/shop/card.h"
#include "core/shop/shipping.h"

namespace tarebook {

/// How an empty cylinder travels: by what was last in it, by the books or else by its tag, and by whether it
/// was evacuated since. Evacuated, it is what the rulebook says of a residue of nothing (residue(): of a
/// nonflammable gas free of the rules in the United States once its marks are covered; of others where the
/// entry says with what it was purged as well); otherwise nothing is presumed of its pressure, and it travels
/// like a full one, with the words for residue.
struct Emptied {
    Shipping shipping;              // `problem` where it cannot be told; as Shipping for what is inside
    std::string last;               // designation; empty: nothing is known to have been in it
    std::string words;              // what the paper says of residue; empty: there is none that counts
    std::optional<Finding> finding; // `transport.residue`, of what is residue or is let go
    [[nodiscard]] std::string content() const; // `empty, last R-22`
};
[[nodiscard]] Emptied emptiedOf(const Shop& shop, const CylinderState& state);
/// The same where the books say what a paper named.
[[nodiscard]] Emptied emptiedOf(const Shop& shop, const CylinderState& state, const std::string& last);

} // namespace tarebook
