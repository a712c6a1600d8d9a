#include "core/refrigerant/substance.h"

#include <cmath>
#include <utility>

namespace tarebook {

Ancillary::Ancillary(bool exponential, double reducingKelvin, double reducingValue,
                     std::vector<double> factors, std::vector<double> powers)
    : m_exponential(exponential), m_reducingKelvin(reducingKelvin), m_reducingValue(reducingValue),
      m_factors(std::move(factors)), m_powers(std::move(powers)) {}

double Ancillary::at(double kelvin) const {
    const double theta = 1.0 - kelvin / m_reducingKelvin;
    double sum = 0;
    for (std::size_t term = 0; term < m_factors.size(); ++term) {
        sum += m_factors[term] * std::pow(theta, m_powers[term]);
    }
    return m_exponential ? m_reducingValue * std::exp(m_reducingKelvin / kelvin * sum)
                         : m_reducingValue * (1.0 + sum);
}

} // namespace tarebook
