#pragma once

#include <cstdint>
#include <optional>
#include <set>
#include <string_view>

#include <nlohmann/json.hpp>

#include "core/base/result.h"
#include "core/cylinder/nameplate.h"
#include "core/quantity/mass.h"

namespace tarebook {

/// Words of a kind of owner: `own`, `rented`, `customer`, `reclaimer`.
[[nodiscard]] std::string_view ownerKindWord(OwnerKind kind);
/// Error: none of the words.
[[nodiscard]] Result<OwnerKind> ownerKindFrom(std::string_view word);

/// Whether a reclaimer gives an empty cylinder for a full one that stays there, as the shop has entered it:
/// its own empties, at once, free or for a fee. A limit that nobody has entered limits nothing.
struct ExchangeTerms {
    std::optional<bool> given;       // false: the same cylinder comes back emptied; none: not known
    std::optional<std::int64_t> fee; // charged for an empty, in hundredths; zero: free; none: not known
    std::set<OwnerKind> owners;      // for whose cylinders; empty: whoever's
    std::optional<Mass> leastWater;  // for a water capacity from, as mass of water
    std::optional<Mass> mostWater;   // to, both included
    bool inDate = false;             // only for one that may be filled again by its retest

    [[nodiscard]] bool empty() const { return *this == ExchangeTerms(); }
    bool operator==(const ExchangeTerms&) const = default;

    /// The object `exchange` of terms, without what is not known.
    [[nodiscard]] nlohmann::json body() const;
    /// Reads it back. Error names the field that is wrong, or says that a fee or a limit stands without an
    /// empty that is given; fields of later versions are passed over.
    [[nodiscard]] static Result<ExchangeTerms> from(const nlohmann::json& body);
};

} // namespace tarebook
