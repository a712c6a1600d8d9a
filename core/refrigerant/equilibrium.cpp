#include "core/refrigerant/equilibrium.h"

#include <algorithm>
#include <cmath>

namespace tarebook {

namespace {

constexpr int kMostNewtonSteps = 40;
constexpr int kSubstitutions = 3;
// The change after which another one, about its square, is not worth a step; above the critical temperature
// of a substance convergence is slower.
constexpr double kConverged = 1e-5;
constexpr double kConvergedHard = 1e-10;
constexpr double kTrivial = 1e-5;     // nearer than this both phases have become one
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

/// Each of the substances has a liquid of its own at that temperature.
bool allCondense(const Parts& parts, double kelvin) {
    for (std::size_t part = 0; part < parts.count; ++part) {
        if (kelvin >= parts.substances[part]->criticalKelvin) {
            return false;
        }
    }
    return true;
}

/// The iteration with one share of vapour.
class EquilibriumSolver {
public:
    EquilibriumSolver(const Parts& parts, const MixtureAt& mixture, double vapourShare)
        : m_parts(parts), m_share(vapourShare),
          m_converged(allCondense(parts, mixture.kelvin) ? kConverged : kConvergedHard), m_mixture(&mixture) {
    }

    /// By Raoult's law.
    [[nodiscard]] Equilibrium raoult(double kelvin) {
        moveTo(kelvin);
        Equilibrium point;
        double bubble = 0;
        double dew = 0;
        for (std::size_t part = 0; part < m_parts.count; ++part) {
            const double own = m_mixture->ownPressure[part];
            point.logRatio[part] = std::log(own);
            bubble += m_parts.moles[part] * own;
            dew += m_parts.moles[part] / own;
        }
        point.kilopascal = std::pow(bubble, 1 - m_share) * std::pow(dew, -m_share);
        for (std::size_t part = 0; part < m_parts.count; ++part) {
            point.logRatio[part] -= std::log(point.kilopascal);
        }
        return point;
    }

    /// From the guess in `point`; false when it does not converge or the phases become one.
    bool converge(double kelvin, int substitutions, Equilibrium& point) {
        moveTo(kelvin);
        for (int step = 0; step < substitutions; ++step) {
            substitute(point);
        }
        for (int step = 0; step < kMostNewtonSteps; ++step) {
            const double change = newton(point);
            if (!(change >= 0)) {
                return false;
            }
            if (change < m_converged) {
                split(point);
                point.vapourCompressibility = phaseCompressibility(*m_mixture, point.vapour, point.kilopascal,
                                                                   Phase::vapour, m_vapour.compressibility);
                point.liquidIsStable = liquidIsStable(point.liquid);
                // not by the compositions: those of an azeotrope are the same
                return point.vapourCompressibility > m_liquid.compressibility * (1 + kTrivial);
            }
        }
        return false;
    }

private:
    void moveTo(double kelvin) {
        if (kelvin != m_mixture->kelvin) {
            mixtureAt(m_parts, kelvin, m_colder);
            m_mixture = &m_colder;
        }
    }

    /// Both compositions from the ratios (Rachford and Rice); what they differ in sum.
    double split(Equilibrium& point) const {
        double difference = 0;
        for (std::size_t part = 0; part < m_parts.count; ++part) {
            const double ratio = std::exp(point.logRatio[part]);
            point.liquid[part] = m_parts.moles[part] / (1 + m_share * (ratio - 1));
            point.vapour[part] = ratio * point.liquid[part];
            difference += point.vapour[part] - point.liquid[part];
        }
        return difference;
    }

    void evaluate(const Equilibrium& point, bool derivatives) {
        evaluatePhase(*m_mixture, point.liquid, point.kilopascal, Phase::liquid, derivatives, m_liquid);
        evaluatePhase(*m_mixture, point.vapour, point.kilopascal, Phase::vapour, derivatives, m_vapour);
    }

    void substitute(Equilibrium& point) {
        split(point);
        double liquidSum = 0;
        double vapourSum = 0;
        for (std::size_t part = 0; part < m_parts.count; ++part) {
            liquidSum += point.liquid[part];
            vapourSum += point.vapour[part];
        }
        for (std::size_t part = 0; part < m_parts.count; ++part) {
            point.liquid[part] /= liquidSum;
            point.vapour[part] /= vapourSum;
        }
        evaluate(point, false);
        double numerator = 0;
        double denominator = 0;
        for (std::size_t part = 0; part < m_parts.count; ++part) {
            point.logRatio[part] = m_liquid.logFugacity[part] - m_vapour.logFugacity[part];
            const double ratio = std::exp(point.logRatio[part]);
            numerator += (1 - m_share) * m_parts.moles[part] * ratio + m_share * m_parts.moles[part];
            denominator += (1 - m_share) * m_parts.moles[part] + m_share * m_parts.moles[part] / ratio;
        }
        const double factor = std::clamp(numerator / denominator, 0.5, 2.0);
        point.kilopascal *= factor;
        for (std::size_t part = 0; part < m_parts.count; ++part) {
            point.logRatio[part] -= std::log(factor);
        }
    }

    /// One step; the largest change, negative or not a number when it failed.
    double newton(Equilibrium& point) {
        const std::size_t count = m_parts.count;
        const std::size_t size = count + 1;
        const double difference = split(point);
        evaluate(point, true);
        for (std::size_t row = 0; row < count; ++row) {
            m_right[row] = -(point.logRatio[row] + m_vapour.logFugacity[row] - m_liquid.logFugacity[row]);
            m_matrix[row * size + count] = m_vapour.byLogPressure[row] - m_liquid.byLogPressure[row];
        }
        for (std::size_t column = 0; column < count; ++column) {
            const double liquidShare =
                point.liquid[column] / m_parts.moles[column]; // 1/(1 + share (y/x - 1))
            const double liquidChange = -m_share * point.vapour[column] * liquidShare;
            const double vapourChange = (1 - m_share) * point.vapour[column] * liquidShare;
            for (std::size_t row = 0; row < count; ++row) {
                m_matrix[row * size + column] = (row == column ? 1.0 : 0.0) +
                                                m_vapour.byFraction[row * count + column] * vapourChange -
                                                m_liquid.byFraction[row * count + column] * liquidChange;
            }
            m_matrix[count * size + column] = vapourChange - liquidChange;
        }
        m_matrix[count * size + count] = 0;
        m_right[count] = -difference;
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

    /// Whether the Gibbs energy of the liquid curves upwards in every direction (Michelsen, Fluid Phase
    /// Equilibria 9 (1982) 1): the matrix of sqrt(x x) d ln f/dx has a root after Cholesky.
    bool liquidIsStable(const Numbers& liquid) {
        const std::size_t count = m_parts.count;
        for (std::size_t row = 0; row < count; ++row) {
            double along = 0; // so that only changes whose sum is zero count
            for (std::size_t column = 0; column < count; ++column) {
                along += m_liquid.byFraction[row * count + column] * liquid[column];
            }
            for (std::size_t column = 0; column <= row; ++column) {
                double rest =
                    (row == column ? 1.0 : 0.0) + std::sqrt(liquid[row] * liquid[column]) *
                                                      (m_liquid.byFraction[row * count + column] - along);
                for (std::size_t before = 0; before < column; ++before) {
                    rest -= m_matrix[row * count + before] * m_matrix[column * count + before];
                }
                if (row == column && !(rest > 0)) {
                    return false;
                }
                m_matrix[row * count + column] =
                    row == column ? std::sqrt(rest) : rest / m_matrix[column * count + column];
            }
        }
        return true;
    }

    const Parts& m_parts;
    double m_share;
    double m_converged;
    const MixtureAt* m_mixture;
    MixtureAt m_colder;
    PhaseState m_liquid;
    PhaseState m_vapour;
    Matrix m_matrix;
    Column m_right;
};

/// What an equilibrium tells of another one of the same contents, at another temperature or share: the ratios
/// go with the pressure of each substance alone, and the pressure with their mean.
Equilibrium carriedOver(const Parts& parts, const MixtureAt& mixture, double vapourShare,
                        const NearEquilibrium& near) {
    Equilibrium guess;
    double bubble = 0;
    double dew = 0;
    for (std::size_t part = 0; part < parts.count; ++part) {
        const double ratio = std::exp(near.point->logRatio[part]) * mixture.ownPressure[part] /
                             near.mixture->ownPressure[part];
        guess.logRatio[part] = std::log(ratio);
        bubble += parts.moles[part] * ratio;
        dew += parts.moles[part] / ratio;
    }
    // At the old pressure; sum of y is 1 at the bubble point, sum of x at the dew point.
    const double factor = std::pow(bubble, 1 - vapourShare) * std::pow(dew, -vapourShare);
    guess.kilopascal = near.point->kilopascal * factor;
    for (std::size_t part = 0; part < parts.count; ++part) {
        guess.logRatio[part] -= std::log(factor);
    }
    return guess;
}

/// From colder, extrapolating in 1/T, with strides that shrink where it gets hard.
std::optional<Equilibrium> fromColder(EquilibriumSolver& solver, const Parts& parts, double kelvin) {
    double critical = 0;
    for (std::size_t part = 0; part < parts.count; ++part) {
        critical += parts.moles[part] * parts.substances[part]->criticalKelvin;
    }
    double at = std::min(kelvin - kFirstStride, kColdStart * critical);
    Equilibrium point = solver.raoult(at);
    if (!solver.converge(at, kSubstitutions, point)) {
        return std::nullopt;
    }
    Equilibrium before = point;
    double beforeAt = at;
    double stride = kFirstStride;
    while (at < kelvin) {
        const double next = std::min(at + stride, kelvin);
        Equilibrium guess = point;
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

std::optional<Equilibrium> equilibriumOf(const Parts& parts, const MixtureAt& mixture, double vapourShare,
                                         const Equilibrium* guess) {
    EquilibriumSolver solver(parts, mixture, vapourShare);
    if (guess != nullptr) {
        Equilibrium near = *guess;
        if (solver.converge(mixture.kelvin, 0, near)) {
            return near;
        }
    }
    Equilibrium point = solver.raoult(mixture.kelvin);
    if (solver.converge(mixture.kelvin, kSubstitutions, point)) {
        return point;
    }
    return fromColder(solver, parts, mixture.kelvin);
}

std::optional<Equilibrium> equilibriumNear(const Parts& parts, const MixtureAt& mixture, double vapourShare,
                                           const NearEquilibrium& near) {
    if (!allCondense(parts, mixture.kelvin)) {
        return equilibriumOf(parts, mixture, vapourShare); // there are other solutions to fall into
    }
    const Equilibrium guess = carriedOver(parts, mixture, vapourShare, near);
    return equilibriumOf(parts, mixture, vapourShare, &guess);
}

std::optional<Equilibrium> equilibriumAt(const Parts& parts, double kelvin, double vapourShare,
                                         const Equilibrium* guess) {
    MixtureAt mixture;
    mixtureAt(parts, kelvin, mixture);
    return equilibriumOf(parts, mixture, vapourShare, guess);
}

} // namespace tarebook
