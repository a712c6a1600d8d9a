#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace tarebook {

/// One ancillary equation; forms and coefficients from resources/refrigerants/pure-ancillary-fit.csv, which
/// names the equations of state it was fitted to. Temperatures in K.
class Ancillary {
public:
    Ancillary() = default;
    /// Form `A1`: y = yr exp((Tr/T) sum n theta^t), `A0`: y = yr exp(sum n theta^t), otherwise
    /// y = yr (1 + sum n theta^t); theta = 1 - T/Tr.
    Ancillary(std::string_view form, double reducingKelvin, double reducingValue, std::vector<double> factors,
              std::vector<double> powers);
    /// The saturated property, in the unit of the reducing value; above the reducing temperature as at it.
    [[nodiscard]] double at(double kelvin) const;

private:
    enum class Form { exponentialByTemperature, exponential, polynomial };
    Form m_form = Form::polynomial;
    double m_reducingKelvin = 1;
    double m_reducingValue = 0;
    std::vector<double> m_factors;
    std::vector<double> m_powers;
};

/// A pure fluid of the catalogue, as the model needs it.
struct Substance {
    std::string designation; // ASHRAE 34, without the hyphen: R1234ze(E)
    std::size_t index = 0;   // of the pair table
    double molarMass = 0;    // kg/kmol
    double criticalKelvin = 0;
    double criticalKilopascal = 0;
    double acentricFactor = 0;
    double lowestKelvin = 0;         // of the ancillary equations
    Ancillary saturationPressure;    // kPa absolute
    Ancillary liquidDensity;         // kg/m3
    Ancillary vapourDensity;         // kg/m3
    double covolume = 0;             // of Peng-Robinson, m3/kmol
    double characteristicVolume = 0; // of the saturated liquid at 0.7 Tc, m3/kmol

    /// Fills covolume and characteristicVolume from the rest.
    void derive();
};

} // namespace tarebook
