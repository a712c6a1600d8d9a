#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/refrigerant/pressure_check.h"
#include "core/rules/contents_rules.h"

namespace tarebook {

/// A cylinder's pressure as somebody read it, with what else is known of the moment.
struct PressureReading {
    Temperature temperature = Temperature::fromCelsius(25); // of the cylinder
    GaugePressure pressure;                                 // against the standard atmosphere
    std::optional<double> hoursAtRest = {};                 // none: not said, taken as at rest
    std::optional<bool> liquidLeft = {};                    // none: not known
    std::optional<double> gaugeErrorKilopascal = {};        // half width; none: the figure of the rulebook
    std::optional<double> thermometerErrorKelvin = {};
    std::optional<double> airAllowance = {}; // share by volume, 0 to 1; none: the figure of the rulebook
    std::string liquidSource = "as said";    // where `liquidLeft` comes from, for the working
};

enum class IdentityVerdict {
    consistent,     // agrees within what instruments and model may err, or air within the allowance
    airSuspected,   // higher: air, a mixture, or liquid-full
    otherSuspected, // the pressure of another refrigerant in common use
    noLiquid,       // no liquid left, or as a blend with little: the pressure says nothing
    notAtRest,      // too soon after the work: the pressure says nothing yet
    belowCurve,     // lower than the contents can show with liquid
};
/// `consistent`, `air suspected`, `other refrigerant suspected`, `no liquid left`, `not at rest`,
/// `below the curve`.
[[nodiscard]] std::string verdictWord(IdentityVerdict verdict);

/// The declared contents with a share of another refrigerant that would show the measured pressure.
struct FittingPair {
    std::string designation;
    double share = 0; // by mass of the whole, 0 to 1, the least that fits
};

/// What a pressure at rest says of the name on the tag. It can speak against a name, never prove one.
struct IdentityCheck {
    IdentityVerdict verdict = IdentityVerdict::consistent;
    PressureCheck pressure;
    double hiddenAirShare = 0;      // air by volume that instruments and model together can hide
    std::vector<FittingPair> pairs; // where the pressure does not agree; the smallest share first
    Finding finding;                // `identity.consistent`, `.air`, `.other`, `.no-liquid`, `.not-at-rest`,
                                    // `.below`
};

/// Refrigerants that a service shop meets every week: of these the verdict and the pairs speak, the whole
/// catalogue is named beside them. Common practice, no list of the law's.
[[nodiscard]] const std::vector<std::string>& usualRefrigerants();

/// The pressure against the bubble pressure of the declared contents (the dew pressure of a blend would be
/// wrong by its glide: liquid is there). `name`: the contents as the tag has them. Error: as saturationAt(),
/// and an error of an instrument, a time or an allowance below zero.
[[nodiscard]] Result<IdentityCheck> checkIdentity(const ContentsRules& rules, const Catalogue& catalogue,
                                                  const Contents& declared, const std::string& name,
                                                  const PressureReading& reading, const std::string& subject);

} // namespace tarebook
