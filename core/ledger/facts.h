#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/ledger/account.h"
#include "core/ledger/entry.h"
#include "core/ledger/holding.h"

namespace tarebook {

/// Refrigerant that went from one account to another, as somebody weighed it.
struct Movement {
    Account source;
    Account target;
    Mass mass; // above zero
    /// What it is, where the source is no cylinder: a cylinder's own content decides. For a cylinder it is
    /// only a hint, used when the books say that the cylinder held less.
    std::string refrigerant;
    std::string owner;                    // of gas that enters the shop's care; empty: the shop
    GasState state = GasState::recovered; // of gas that enters the shop's care

    bool operator==(const Movement&) const = default;
};

/// A cylinder on a scale.
struct Weighing {
    std::string serial;
    Mass gross;
    Mass tare;      // the tare that stood in the register
    Mass tolerance; // combined uncertainty of scale and tare, half width; a difference within it is noise

    bool operator==(const Weighing&) const = default;
};

/// What an entry says about masses: first the weighings, as found, then the movements in their order.
struct MassFacts {
    std::vector<Weighing> weighings;
    std::vector<Movement> movements;
    /// Cylinders declared empty by evacuation: what the books still hold there goes to `variance`.
    std::vector<std::string> evacuated;
};

/// Pure function of the body; Error names the field that is missing or wrong.
[[nodiscard]] Result<MassFacts> massFactsOf(const Draft& draft);

/// Body of a movement entry (opened, bought, recovered, charged, decanted, released): keys from, to, mass_mg,
/// refrigerant, owner, state, and what else is known: gross_before_mg, gross_after_mg, tare_mg, tolerance_mg,
/// cylinder, job, person, note. Weighings come from cylinder + gross_before_mg + tare_mg + tolerance_mg.
[[nodiscard]] nlohmann::json movementBody(const Movement& movement);

} // namespace tarebook
