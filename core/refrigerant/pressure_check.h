#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "core/refrigerant/non_condensables.h"
#include "core/refrigerant/saturation.h"

namespace tarebook {

/// What a pressure measured at rest says of the contents that the tag names.
enum class PressureMeaning {
    agrees,              // with the bubble pressure, within the model's uncertainty
    betweenDewAndBubble, // of a blend: as with little liquid left
    higher,              // air, other contents, warmer than measured, or liquid-full
    lower,               // no liquid left, other contents, or colder than measured
};
/// `agrees`, `between dew and bubble`, `higher`, `lower`.
[[nodiscard]] std::string meaningWord(PressureMeaning meaning);

/// A measured pressure beside what the named contents would show. It can speak against a name, never prove
/// it: refrigerants share pressures.
struct PressureCheck {
    PressureMeaning meaning = PressureMeaning::agrees;
    Saturation expected;
    double differenceKilopascal = 0;  // measured less the bubble pressure
    double uncertaintyKilopascal = 0; // of the bubble pressure, half width
    double kilopascalPerKelvin = 0;   // what an error of the thermometer is worth
    std::optional<AirEstimate> air;   // only where higher
    /// Other refrigerants whose own bubble pressure agrees with what was measured, the nearest first; at most
    /// kMostOthers are named, `moreOthers` are not.
    std::vector<std::string> others;
    std::size_t moreOthers = 0;

    /// For the person, clauses without a full stop; `written` prints a pressure difference.
    [[nodiscard]] std::vector<std::string>
    clauses(const std::function<std::string(double kilopascal)>& written) const;
};
inline constexpr std::size_t kMostOthers = 5;

/// Error: as saturationAt().
[[nodiscard]] Result<PressureCheck> checkPressure(const Catalogue& catalogue, const Contents& contents,
                                                  Temperature temperature, AbsolutePressure measured);

} // namespace tarebook
