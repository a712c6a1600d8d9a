#pragma once

#include <string>
#include <vector>

namespace tarebook {

/// One ancillary equation; forms and coefficients from resources/refrigerants/pure-ancillary-fit.csv, which
/// names the equations of state it was fitted to. Temperatures in K.
class Ancillary {
public:
    Ancillary() = default;
    /// exponential: y = yr exp((Tr/T) sum n theta^t), otherwise y = yr (1 + sum n theta^t); theta = 1 - T/Tr.
    Ancillary(bool exponential, double reducingKelvin, double reducingValue, std::vector<double> factors,
              std::vector<double> powers);
    /// The saturated property, in the unit of the reducing value. Meant for kelvin <= reducing temperature.
    [[nodiscard]] double at(double kelvin) const;

private:
    bool m_exponential = false;
    double m_reducingKelvin = 1;
    double m_reducingValue = 0;
    std::vector<double> m_factors;
    std::vector<double> m_powers;
};

/// A pure fluid of the catalogue.
struct Substance {
    std::string designation;       // ASHRAE 34, without the hyphen: R1234ze(E)
    std::string safetyGroup;       // ASHRAE 34
    std::string safetyGroupSource; // ASHRAE, MEMORY or MEMORY-DOUBT
    std::string equationOfState;   // the paper behind the numbers
    double molarMass = 0;          // kg/kmol
    double criticalKelvin = 0;
    double criticalKilopascal = 0;
    double acentricFactor = 0;
    double lowestKelvin = 0;      // of the ancillary equations
    Ancillary saturationPressure; // kPa absolute
    Ancillary liquidDensity;      // kg/m3
    Ancillary vapourDensity;      // kg/m3
};

} // namespace tarebook
