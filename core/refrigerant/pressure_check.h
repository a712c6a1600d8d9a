#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/refrigerant/non_condensables.h"
#include "core/refrigerant/saturation.h"

namespace tarebook {

/// What a pressure measured at rest says of the contents that the tag names.
enum class PressureMeaning {
    agrees,              // with the bubble pressure, within the model's uncertainty and the instruments'
    betweenDewAndBubble, // of a blend: as with little liquid left
    higher,              // air, other contents, warmer than measured, or liquid-full
    lower,               // no liquid left, other contents, or colder than measured
};
/// `agrees`, `between dew and bubble`, `higher`, `lower`.
[[nodiscard]] std::string meaningWord(PressureMeaning meaning);

/// What the instruments may be off, half widths.
struct InstrumentError {
    double gaugeKilopascal = 0;
    double thermometerKelvin = 0;
};

/// A measured pressure beside what the named contents would show. It can speak against a name, never prove
/// it: refrigerants share pressures.
struct PressureCheck {
    PressureMeaning meaning = PressureMeaning::agrees;
    Saturation expected;
    double differenceKilopascal = 0;  // measured less the bubble pressure
    double uncertaintyKilopascal = 0; // of the bubble pressure, half width
    double errorKilopascal = 0;       // of the difference: the model's and the instruments', root of squares
    double kilopascalPerKelvin = 0;   // what an error of the thermometer is worth
    std::optional<AirEstimate> air;   // only where higher
    /// Other refrigerants whose own bubble pressure agrees with what was measured, within their own
    /// uncertainty and the instruments', the nearest first; at most kMostOthers are named, `moreOthers` not.
    std::vector<std::string> others;
    std::size_t moreOthers = 0;
};
inline constexpr std::size_t kMostOthers = 5;

/// Error: as saturationAt().
[[nodiscard]] Result<PressureCheck> checkPressure(const Catalogue& catalogue, const Contents& contents,
                                                  Temperature temperature, AbsolutePressure measured,
                                                  const InstrumentError& instruments = {});

} // namespace tarebook
