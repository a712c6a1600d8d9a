#include "core/refrigerant/substance.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/refrigerant/peng_robinson.h"

namespace tarebook {

Ancillary::Ancillary(std::string_view form, double reducingKelvin, double reducingValue,
                     std::vector<double> factors, std::vector<double> powers)
    : m_form(form == "A1"   ? Form::exponentialByTemperature
             : form == "A0" ? Form::exponential
                            : Form::polynomial),
      m_reducingKelvin(reducingKelvin), m_reducingValue(reducingValue), m_factors(std::move(factors)),
      m_powers(std::move(powers)) {}

double Ancillary::at(double kelvin) const {
    const double theta = std::max(1.0 - kelvin / m_reducingKelvin, 1e-12);
    const double logarithm = std::log(theta);
    double sum = 0;
    for (std::size_t term = 0; term < m_factors.size(); ++term) {
        sum += m_factors[term] * std::exp(m_powers[term] * logarithm);
    }
    switch (m_form) {
    case Form::exponentialByTemperature:
        return m_reducingValue * std::exp(m_reducingKelvin / kelvin * sum);
    case Form::exponential:
        return m_reducingValue * std::exp(sum);
    case Form::polynomial:
        break;
    }
    return m_reducingValue * (1.0 + sum);
}

void Substance::derive() {
    covolume = kCovolumeFactor * kGasConstant * criticalKelvin / criticalKilopascal;
    characteristicVolume = molarMass / liquidDensity.at(0.7 * criticalKelvin);
}

} // namespace tarebook
