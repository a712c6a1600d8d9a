#include "core/refrigerant/saturation_point.h"

#include <algorithm>
#include <cmath>

namespace tarebook {

namespace {

constexpr int kMostNewtonSteps = 40;
constexpr int kSubstitutions = 3;
constexpr double kConverged = 1e-10;
constexpr double kTrivial = 1e-5;     // ln(y/x): both phases have become one
constexpr double kColdStart = 0.7;    // of the lowest critical-weighted temperature
constexpr double kFirstStride = 12.0; // K
constexpr double kLastStride = 0.02;  // K

constexpr std::size_t kMostRows = kMostSubstances + 1;
using Matrix = std::array<double, kMostRows * kMostRows>;
using Column = std::array<double, kMostRows>;

/// Gauss with partial pivoting; false when singular. The answer stands in `right`.
bool solve(Matrix& matrix, Column& right, std::size_t size) {
    for (std::size_t pivot = 0; pivot < size; ++pivot) {
        std::size_t best = pivot;
        for (std::size_t row = pivot + 1; row < size; ++row) {
            best = std::abs(matrix[row * size + pivot]) > std::abs(matrix[best * size + pivot]) ? row : best;
        }
        if (!(std::abs(matrix[best * size + pivot]) > 1e-14)) {
            return false;
        }
        if (best != pivot) {
            std::swap_ranges(&matrix[pivot * size], &matrix[pivot * size] + size, &matrix[best * size]);
            std::swap(right[pivot], right[best]);
        }
        for (std::size_t row = pivot + 1; row < size; ++row) {
            const double factor = matrix[row * size + pivot] / matrix[pivot * size + pivot];
            for (std::size_t column = pivot; factor != 0 && column < size; ++column) {
                matrix[row * size + column] -= factor * matrix[pivot * size + column];
            }
            right[row] -= factor * right[pivot];
        }
    }
    for (std::size_t row = size; row-- > 0;) {
        for (std::size_t column = row + 1; column < size; ++column) {
            right[row] -= matrix[row * size + column] * right[column];
        }
        right[row] /= matrix[row * size + row];
    }
    return true;
}

/// Own saturation pressure, above the critical temperature Wilson's estimate.
double ownPressure(const Substance& substance, double kelvin) {
    const double reduced = kelvin / substance.criticalKelvin;
    return reduced < 0.9999 ? substance.saturationPressure.at(kelvin)
                            : substance.criticalKilopascal *
                                  std::exp(5.373 * (1 + substance.acentricFactor) * (1 - 1 / reduced));
}

/// One side's iteration at one temperature.
class PointSolver {
public:
    PointSolver(const Parts& parts, Side side) : m_parts(parts), m_bubble(side == Side::bubble) {}

    [[nodiscard]] SaturationPoint raoult(double kelvin) const {
        SaturationPoint point;
        double sum = 0;
        for (std::size_t part = 0; part < m_parts.count; ++part) {
            const double own = ownPressure(*m_parts.substances[part], kelvin);
            point.logRatio[part] = std::log(own);
            sum += m_bubble ? m_parts.moles[part] * own : m_parts.moles[part] / own;
        }
        point.kilopascal = m_bubble ? sum : 1 / sum;
        for (std::size_t part = 0; part < m_parts.count; ++part) {
            point.logRatio[part] -= std::log(point.kilopascal);
        }
        return point;
    }

    /// From the guess in `point`; false when it does not converge or the phases become one.
    bool converge(double kelvin, int substitutions, SaturationPoint& point) {
        mixtureAt(m_parts, kelvin, m_mixture);
        for (int step = 0; step < substitutions; ++step) {
            substitute(point);
        }
        for (int step = 0; step < kMostNewtonSteps; ++step) {
            const double change = newton(point);
            if (!(change >= 0)) {
                return false;
            }
            if (change < kConverged) {
                double apart = 0;
                for (std::size_t part = 0; part < m_parts.count; ++part) {
                    apart = std::max(apart, std::abs(point.logRatio[part]));
                }
                point.liquidCompressibility = liquid().compressibility;
                point.vapourCompressibility = vapour().compressibility;
                return apart > kTrivial && (m_parts.count > 1 || apart > 0) &&
                       point.vapourCompressibility > point.liquidCompressibility * (1 + kTrivial);
            }
        }
        return false;
    }

private:
    [[nodiscard]] PhaseState& liquid() { return m_bubble ? m_given : m_other; }
    [[nodiscard]] PhaseState& vapour() { return m_bubble ? m_other : m_given; }

    /// Composition of the incipient phase, and its sum.
    double incipient(const SaturationPoint& point, Numbers& fractions) const {
        double sum = 0;
        for (std::size_t part = 0; part < m_parts.count; ++part) {
            fractions[part] =
                m_parts.moles[part] * std::exp(m_bubble ? point.logRatio[part] : -point.logRatio[part]);
            sum += fractions[part];
        }
        return sum;
    }

    void evaluate(const Numbers& other, double kilopascal, bool derivatives) {
        evaluatePhase(m_mixture, m_parts.moles, kilopascal, m_bubble ? Phase::liquid : Phase::vapour,
                      derivatives, m_given);
        evaluatePhase(m_mixture, other, kilopascal, m_bubble ? Phase::vapour : Phase::liquid, derivatives,
                      m_other);
    }

    void substitute(SaturationPoint& point) {
        Numbers other;
        double sum = incipient(point, other);
        for (std::size_t part = 0; part < m_parts.count; ++part) {
            other[part] /= sum;
        }
        evaluate(other, point.kilopascal, false);
        for (std::size_t part = 0; part < m_parts.count; ++part) {
            point.logRatio[part] = liquid().logFugacity[part] - vapour().logFugacity[part];
        }
        sum = incipient(point, other);
        point.kilopascal *= std::clamp(m_bubble ? sum : 1 / sum, 0.5, 2.0);
    }

    /// One step; the largest change, negative or not a number when it failed.
    double newton(SaturationPoint& point) {
        const std::size_t count = m_parts.count;
        const std::size_t size = count + 1;
        Numbers other;
        const double sum = incipient(point, other);
        evaluate(other, point.kilopascal, true);
        const double sign = m_bubble ? 1 : -1; // d ln(other fraction) / d ln(y/x)
        for (std::size_t row = 0; row < count; ++row) {
            m_right[row] = -(point.logRatio[row] + vapour().logFugacity[row] - liquid().logFugacity[row]);
            for (std::size_t column = 0; column < count; ++column) {
                // the incipient phase alone depends on the ratios; vapour counts plus, liquid minus, and so
                // does the sign of the exponent: both cancel
                m_matrix[row * size + column] =
                    (row == column ? 1.0 : 0.0) + m_other.byFraction[row * count + column] * other[column];
            }
            m_matrix[row * size + count] = vapour().byLogPressure[row] - liquid().byLogPressure[row];
            m_matrix[count * size + row] = sign * other[row];
        }
        m_matrix[count * size + count] = 0;
        m_right[count] = 1 - sum;
        if (!solve(m_matrix, m_right, size)) {
            return -1;
        }
        double change = 0;
        for (std::size_t row = 0; row < size; ++row) {
            change = std::max(change, std::abs(m_right[row]));
        }
        if (!std::isfinite(change)) {
            return -1;
        }
        const double damping = change > 1 ? 1 / change : 1;
        for (std::size_t row = 0; row < count; ++row) {
            point.logRatio[row] += damping * m_right[row];
        }
        point.kilopascal *= std::exp(damping * m_right[count]);
        return point.kilopascal < 1e6 ? change : -1;
    }

    const Parts& m_parts;
    bool m_bubble;
    MixtureAt m_mixture;
    PhaseState m_given;
    PhaseState m_other;
    Matrix m_matrix;
    Column m_right;
};

/// From colder, extrapolating in 1/T, with strides that shrink where it gets hard.
std::optional<SaturationPoint> fromColder(PointSolver& solver, const Parts& parts, double kelvin) {
    double critical = 0;
    for (std::size_t part = 0; part < parts.count; ++part) {
        critical += parts.moles[part] * parts.substances[part]->criticalKelvin;
    }
    double at = std::min(kelvin - kFirstStride, kColdStart * critical);
    SaturationPoint point = solver.raoult(at);
    if (!solver.converge(at, kSubstitutions, point)) {
        return std::nullopt;
    }
    SaturationPoint before = point;
    double beforeAt = at;
    double stride = kFirstStride;
    while (at < kelvin) {
        const double next = std::min(at + stride, kelvin);
        SaturationPoint guess = point;
        if (beforeAt < at) {
            const double along = (1 / next - 1 / at) / (1 / at - 1 / beforeAt);
            for (std::size_t part = 0; part < parts.count; ++part) {
                guess.logRatio[part] += along * (point.logRatio[part] - before.logRatio[part]);
            }
            guess.kilopascal *= std::pow(point.kilopascal / before.kilopascal, along);
        }
        const bool orderly = solver.converge(next, 0, guess) && guess.kilopascal > point.kilopascal;
        if (orderly) {
            before = point;
            beforeAt = at;
            point = guess;
            at = next;
        } else {
            stride /= 2;
            if (stride < kLastStride) {
                return std::nullopt;
            }
        }
    }
    return point;
}

} // namespace

std::optional<SaturationPoint> saturationPoint(const Parts& parts, double kelvin, Side side) {
    PointSolver solver(parts, side);
    SaturationPoint point = solver.raoult(kelvin);
    if (solver.converge(kelvin, kSubstitutions, point)) {
        return point;
    }
    return fromColder(solver, parts, kelvin);
}

} // namespace tarebook
