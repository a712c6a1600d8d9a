#pragma once

#include <vector>

namespace tarebook {

/// R, CODATA 2018, in kJ/(kmol K) = kPa m3/(kmol K).
inline constexpr double kGasConstant = 8.314462618;

enum class Phase { liquid, vapour };

/// Compressibility factor of the phase for the dimensionless A and B of Peng-Robinson: the smallest real root
/// above B for a liquid, the largest for a vapour.
[[nodiscard]] double compressibility(double a, double b, Phase phase);

/// a/(b R T) with which Peng-Robinson meets the saturation pressure whose p b/(R T) is given; negative when
/// it was not found.
[[nodiscard]] double attractionAtSaturation(double reducedPressure, double firstGuess);

/// What the bubble point needs of a mixture at one temperature; attraction is n x n, row by row.
struct MixtureAt {
    double kelvin = 0;
    std::vector<double> covolume;   // m3/kmol
    std::vector<double> attraction; // kPa (m3/kmol)^2
};

/// Logarithms of the fugacity coefficients of a phase with these mole fractions at the pressure in kPa.
[[nodiscard]] std::vector<double>
logFugacities(const MixtureAt& mixture, const std::vector<double>& fractions, double kilopascal, Phase phase);

} // namespace tarebook
