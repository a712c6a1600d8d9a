#pragma once

#include <optional>

#include "core/refrigerant/parts.h"

namespace tarebook {

/// Liquid and vapour of a mixture in balance.
struct Equilibrium {
    double kilopascal = 0;
    Numbers logRatio; // ln(y/x) of each substance
    Numbers liquid;   // x, mole fractions
    Numbers vapour;   // y
    double vapourCompressibility = 0;
    bool liquidIsStable = true; // against small changes of composition; if not, it would divide in two
};

/// At a temperature, with a share of the moles in the vapour: 0 at the bubble point, 1 at the dew point.
/// Newton on ln(y/x) and ln p with the derivatives of Peng-Robinson, from the guess or Raoult's law; where
/// that does not converge, step by step from colder. Empty when there is none: above the mixture's critical
/// temperature or too near it.
[[nodiscard]] std::optional<Equilibrium> equilibriumAt(const Parts& parts, double kelvin, double vapourShare,
                                                       const Equilibrium* guess = nullptr);
/// An equilibrium and the mixtureAt() of its temperature; both outlive this.
struct NearEquilibrium {
    const Equilibrium* point = nullptr;
    const MixtureAt* mixture = nullptr;
};
/// The same at the temperature of `mixture`, which is mixtureAt() of the parts, helped by an equilibrium of
/// the same parts at a temperature or share near by.
[[nodiscard]] std::optional<Equilibrium> equilibriumNear(const Parts& parts, const MixtureAt& mixture,
                                                         double vapourShare, const NearEquilibrium& near);
/// The same at the temperature of `mixture`, which is mixtureAt() of the parts.
[[nodiscard]] std::optional<Equilibrium> equilibriumOf(const Parts& parts, const MixtureAt& mixture,
                                                       double vapourShare,
                                                       const Equilibrium* guess = nullptr);

} // namespace tarebook
