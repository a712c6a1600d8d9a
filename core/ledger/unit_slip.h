#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

namespace tarebook {

/// How a figure that was read rightly comes to be written wrongly. The pound is 0.45359237 kg exactly, an
/// ounce a sixteenth of it (NIST Handbook 44, Appendix C).
enum class UnitSlip {
    kilogramsAsPounds, // 10 kg written as 10 lb
    poundsAsKilograms, // 12 lb written as 12 kg
    ouncesAsTenths,    // 61 lb 4 oz written as 61.4 lb
    ouncesAsHundredths // 61 lb 14 oz written as 61.14 lb
};

inline constexpr UnitSlip kUnitSlips[] = {UnitSlip::kilogramsAsPounds, UnitSlip::poundsAsKilograms,
                                          UnitSlip::ouncesAsTenths, UnitSlip::ouncesAsHundredths};

/// What the mass would have been without the slip, in milligrams, to the nearest. Nothing where such a slip
/// cannot have made this figure: no ounces, or none left over, in its decimals. `written` is from 0 to 10^15.
[[nodiscard]] std::optional<std::int64_t> withoutSlip(std::int64_t written, UnitSlip slip);

/// `kilograms that were written as pounds`.
[[nodiscard]] std::string_view unitSlipWords(UnitSlip slip);

} // namespace tarebook
