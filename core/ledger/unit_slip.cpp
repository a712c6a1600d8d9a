#include "core/ledger/unit_slip.h"

#include <cstdlib>

namespace tarebook {

namespace {

constexpr std::int64_t kPoundTimes100 = 45'359'237; // milligrams in 100 lb
constexpr std::int64_t kKilogramTimes100 = 100'000'000;
constexpr std::int64_t kOunces = 16; // in a pound
__extension__ using Wide = __int128;

std::int64_t scaledMass(std::int64_t mass, std::int64_t numerator, std::int64_t denominator) {
    return static_cast<std::int64_t>((static_cast<Wide>(mass) * numerator + denominator / 2) / denominator);
}

/// `decimals` hundredths of a pound, of which the last may be no digit that was written.
std::optional<std::int64_t> ouncesIn(std::int64_t decimals, UnitSlip slip) {
    const bool tenths = slip == UnitSlip::ouncesAsTenths;
    if (tenths && decimals % 10 != 0) {
        return std::nullopt;
    }
    const std::int64_t ounces = tenths ? decimals / 10 : decimals;
    return ounces > 0 && ounces < kOunces ? std::optional(ounces) : std::nullopt;
}

} // namespace

std::optional<std::int64_t> withoutSlip(std::int64_t written, UnitSlip slip) {
    if (slip == UnitSlip::kilogramsAsPounds) {
        // The number as it was typed, where it had at most three decimals: it was rounded to milligrams.
        const std::int64_t thousandths = scaledMass(written, 100'000, kPoundTimes100);
        return scaledMass(thousandths, kPoundTimes100, 100'000) == written
                   ? thousandths * 1'000
                   : scaledMass(written, kKilogramTimes100, kPoundTimes100);
    }
    if (slip == UnitSlip::poundsAsKilograms) {
        return scaledMass(written, kPoundTimes100, kKilogramTimes100);
    }
    const std::int64_t hundredths = scaledMass(written, 10'000, kPoundTimes100);
    if (std::abs(scaledMass(hundredths, kPoundTimes100, 10'000) - written) > 1) {
        return std::nullopt; // more decimals than anybody writes ounces in
    }
    const auto ounces = ouncesIn(hundredths % 100, slip);
    if (!ounces) {
        return std::nullopt;
    }
    return scaledMass(hundredths / 100 * kOunces + *ounces, kPoundTimes100, 100 * kOunces);
}

std::string_view unitSlipWords(UnitSlip slip) {
    switch (slip) {
    case UnitSlip::kilogramsAsPounds:
        return "kilograms that were written as pounds";
    case UnitSlip::poundsAsKilograms:
        return "pounds that were written as kilograms";
    case UnitSlip::ouncesAsTenths:
    case UnitSlip::ouncesAsHundredths:
        return "ounces that were written as decimals of a pound";
    }
    return "a slip in its unit";
}

} // namespace tarebook
