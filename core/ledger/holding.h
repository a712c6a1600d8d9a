#pragma once

#include <compare>
#include <map>
#include <string>
#include <string_view>

#include "core/base/result.h"
#include "core/quantity/mass.h"

namespace tarebook {

/// Where refrigerant stands between the drum and the reclaimer (40 CFR 82.152 has the words).
enum class GasState { unused, recovered, recycled, reclaimed };

[[nodiscard]] std::string gasStateWord(GasState state); // `new`, `recovered`, ...
[[nodiscard]] Result<GasState> gasStateFrom(std::string_view word);

/// One kind of refrigerant in the books: what it is, whose it is, and in what state. Recovered gas still
/// belongs to the equipment's owner until it is sold or reclaimed.
struct Gas {
    std::string refrigerant; // designation as the catalogue shows it, or `unknown`
    std::string owner;       // empty: the shop's own; otherwise the customer's name
    GasState state = GasState::unused;

    auto operator<=>(const Gas&) const = default;
};

/// What an account holds or what a posting changes: milligrams by gas. No zero is kept.
class Holding {
public:
    Holding() = default;
    Holding(const Gas& gas, Mass mass) { add(gas, mass.milligrams()); }

    [[nodiscard]] const std::map<Gas, std::int64_t>& parts() const { return m_parts; }
    [[nodiscard]] bool empty() const { return m_parts.empty(); }
    /// Sum over all gases.
    [[nodiscard]] Mass total() const;
    /// Milligrams by refrigerant, owner and state put together.
    [[nodiscard]] std::map<std::string, std::int64_t> byRefrigerant() const;
    /// Milligrams by owner, empty for the shop's own.
    [[nodiscard]] std::map<std::string, std::int64_t> byOwner() const;

    void add(const Gas& gas, std::int64_t milligrams);
    void add(const Holding& other);
    void subtract(const Holding& other);
    /// The part of a well-mixed content that leaves when `mass` leaves: proportional, rounded to whole
    /// milligrams by largest remainder, so that the parts sum to `mass` exactly. Requires 0 <= mass <=
    /// total() and no negative part.
    /// May also be asked for more than total(): the same proportions, scaled up. Empty when nothing is held.
    [[nodiscard]] Holding portion(Mass mass) const;

    /// `R-22|Ansel Harbor|recovered|6622451` lines joined by `;`, fields escaped; the form kept in the shop
    /// file.
    [[nodiscard]] std::string encoded() const;
    /// Error: not what encoded() writes, a gas twice, or a zero.
    [[nodiscard]] static Result<Holding> decode(std::string_view text);

    bool operator==(const Holding&) const = default;

private:
    std::map<Gas, std::int64_t> m_parts;
};

} // namespace tarebook
