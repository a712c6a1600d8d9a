#pragma once

#include <array>
#include <cstddef>

namespace tarebook {

// Peng-Robinson equation of state (Ind. Eng. Chem. Fundam. 15 (1976) 59) in kPa, m3/kmol, K.

/// R, CODATA 2018, in kJ/(kmol K) = kPa m3/(kmol K).
inline constexpr double kGasConstant = 8.314462618;
inline constexpr double kCovolumeFactor = 0.0777961;  // b pc/(R Tc)
inline constexpr double kAttractionFactor = 0.457235; // a(Tc) pc/(R Tc)^2
inline constexpr std::size_t kMostSubstances = 24;    // of one mixture

using Numbers = std::array<double, kMostSubstances>;

enum class Phase { liquid, vapour };

/// Compressibility factor of the phase for the dimensionless A and B: the smallest real root above B for a
/// liquid, the largest for a vapour.
[[nodiscard]] double compressibility(double a, double b, Phase phase);

/// a/(b R T) with which Peng-Robinson meets the saturation pressure whose p b/(R T) is given; negative when
/// it was not found. attractionSolved() iterates, attractionAtSaturation() looks it up in a table made of it.
[[nodiscard]] double attractionSolved(double reducedPressure, double firstGuess);
[[nodiscard]] double attractionAtSaturation(double reducedPressure);

/// A mixture at one temperature.
struct MixtureAt {
    std::size_t count = 0;
    double kelvin = 0;
    /// Saturation pressure of each substance alone, kPa; above its critical temperature Wilson's estimate.
    Numbers ownPressure;
    Numbers covolume;                                                 // m3/kmol
    std::array<double, kMostSubstances * kMostSubstances> attraction; // kPa (m3/kmol)^2, row * count + column
    /// What (x_row - x_column)/(x_row + x_column) takes from the attraction of a pair; looked at only when
    /// `lopsided`. The column's own element is the negative of the row's.
    std::array<double, kMostSubstances * kMostSubstances> asymmetry;
    bool lopsided = false;
};

/// a of the mixture at the fractions.
[[nodiscard]] double mixtureAttraction(const MixtureAt& mixture, const Numbers& fractions);

/// Compressibility factor of a phase, nothing else of it; quicker from a guess near by, 0 for none.
[[nodiscard]] double phaseCompressibility(const MixtureAt& mixture, const Numbers& fractions,
                                          double kilopascal, Phase phase, double guess);

/// A phase with its composition at a pressure. Derivatives are those of the formula, each fraction on its
/// own.
struct PhaseState {
    double compressibility = 0;
    Numbers logFugacity;                                              // of the coefficients
    Numbers byLogPressure;                                            // d logFugacity / d ln p
    std::array<double, kMostSubstances * kMostSubstances> byFraction; // d logFugacity[row] / d x[column]
};

/// Fills all of `state`, the derivatives only when asked for. Its compressibility factor is taken as a guess,
/// 0 for none.
void evaluatePhase(const MixtureAt& mixture, const Numbers& fractions, double kilopascal, Phase phase,
                   bool derivatives, PhaseState& state);

} // namespace tarebook
