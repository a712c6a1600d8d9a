#pragma once

#include <compare>
#include <cstdint>
#include <string>
#include <string_view>

#include "core/base/result.h"

namespace tarebook {

/// A mass, exact, in whole milligrams; may be negative (a posting that leaves an account).
/// The pound is 0.45359237 kg exactly (international yard and pound agreement, 1959), an ounce a sixteenth.
class Mass {
public:
    constexpr Mass() = default;
    [[nodiscard]] static constexpr Mass fromMilligrams(std::int64_t milligrams) { return Mass(milligrams); }
    /// Reads `47.7 lb`, `61 lb 14 oz`, `9 oz`, `21.6 kg`, `250 g`, exact in decimals and rounded once, to the
    /// nearest milligram, half away from zero. A number without a unit, a sign, or more than 1000 t is an
    /// Error.
    [[nodiscard]] static Result<Mass> parse(std::string_view text);

    [[nodiscard]] constexpr std::int64_t milligrams() const { return m_milligrams; }
    /// For properties and drawings only; books add milligrams.
    [[nodiscard]] constexpr double kilograms() const { return static_cast<double>(m_milligrams) / 1e6; }
    /// All six decimals, so that nothing is hidden: `21.636356 kg`.
    [[nodiscard]] std::string kilogramsText() const;
    /// Tenths of a pound, cut downwards: a printed limit is never above the limit (`40.5 lb`), what is too
    /// much never too small (`-5.5 lb`). The half milligram by which parse() may have rounded is not cut.
    [[nodiscard]] std::string poundsFlooredText() const;
    /// The nearest tenth of a pound, half away from zero: for weights as they were found, never for limits.
    [[nodiscard]] std::string poundsText() const;

    /// The sum, or an Error when it does not fit in 64 bits.
    [[nodiscard]] Result<Mass> plus(Mass other) const;
    [[nodiscard]] Result<Mass> minus(Mass other) const;

    constexpr auto operator<=>(const Mass&) const = default;

private:
    explicit constexpr Mass(std::int64_t milligrams) : m_milligrams(milligrams) {}
    std::int64_t m_milligrams = 0;
};

} // namespace tarebook
