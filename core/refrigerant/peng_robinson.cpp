#include "core/refrigerant/peng_robinson.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

namespace tarebook {

namespace {

constexpr double kRoot2 = std::numbers::sqrt2;

/// The logarithm in the attraction term.
double attractionLogarithm(double z, double b) {
    return std::log((z + (1 + kRoot2) * b) / (z + (1 - kRoot2) * b));
}

} // namespace

double compressibility(double a, double b, Phase phase) {
    const double c2 = b - 1;
    const double c1 = a - b * (2 + 3 * b);
    const double c0 = -b * (a - b * (1 + b));
    const double p = c1 - c2 * c2 / 3;
    const double q = 2 * c2 * c2 * c2 / 27 - c2 * c1 / 3 + c0;
    const double discriminant = q * q / 4 + p * p * p / 27;
    double z = 0;
    if (discriminant > 0) {
        const double root = std::sqrt(discriminant);
        z = std::cbrt(-q / 2 + root) + std::cbrt(-q / 2 - root) - c2 / 3;
    } else {
        const double size = 2 * std::sqrt(-p / 3);
        const double angle = std::acos(std::clamp(3 * q / (p * size), -1.0, 1.0)) / 3;
        const double most = size * std::cos(angle) - c2 / 3;
        const double least = size * std::cos(angle + 2 * std::numbers::pi / 3) - c2 / 3;
        z = phase == Phase::vapour || least <= b ? most : least;
    }
    for (int step = 0; step < 3; ++step) {
        const double slope = (3 * z + 2 * c2) * z + c1;
        const double next = z - (((z + c2) * z + c1) * z + c0) / slope;
        z = slope != 0 && next > b ? next : z;
    }
    return z;
}

double attractionSolved(double reducedPressure, double firstGuess) {
    const double b = reducedPressure;
    double low = 0;
    double high = 1e3;
    double q = firstGuess;
    for (int step = 0; step < 100; ++step) {
        const double liquid = compressibility(q * b, b, Phase::liquid);
        const double vapour = compressibility(q * b, b, Phase::vapour);
        if (vapour - liquid <
            1e-9) { // one root: too much attraction leaves only liquid, too little only vapour
            (liquid < 0.307 ? high : low) = q;
            q = (low + std::min(high, 2 * q)) / 2;
            continue;
        }
        const double difference = liquid - vapour - std::log((liquid - b) / (vapour - b));
        const double logarithms =
            (attractionLogarithm(liquid, b) - attractionLogarithm(vapour, b)) / (2 * kRoot2);
        const double next = difference / logarithms; // Newton: the attraction term is linear in q
        (next > q ? low : high) = q;
        if (std::abs(next - q) < 1e-11 * q) {
            return next;
        }
        q = next > low && next < high ? next : (low + high) / 2;
    }
    return -1;
}

namespace {

/// a/(b R T) over ln(p b/(R T)), from far below any reading to the critical point.
class AttractionTable {
public:
    AttractionTable() {
        double guess = kAttractionFactor / kCovolumeFactor;
        m_values.resize(kNodes);
        m_values[kNodes - 1] = guess;
        for (std::size_t node = kNodes - 1; node-- > 0;) {
            const double logarithm = kLowest + static_cast<double>(node) * kStep;
            guess = attractionSolved(std::exp(logarithm), guess);
            m_values[node] = guess;
        }
    }
    [[nodiscard]] double at(double logarithm) const {
        const double place = std::clamp((logarithm - kLowest) / kStep, 0.0, static_cast<double>(kNodes - 1));
        const auto node = std::clamp<std::size_t>(static_cast<std::size_t>(place), 1, kNodes - 3);
        const double t = place - static_cast<double>(node);
        const double* value = &m_values[node];
        // cubic through the four nodes around
        return value[-1] * (-t * (t - 1) * (t - 2) / 6) + value[0] * ((t + 1) * (t - 1) * (t - 2) / 2) +
               value[1] * (-(t + 1) * t * (t - 2) / 2) + value[2] * ((t + 1) * t * (t - 1) / 6);
    }

private:
    static constexpr std::size_t kNodes = 2048;
    static constexpr double kLowest = -18.0;
    inline static const double kHighest = std::log(kCovolumeFactor);
    inline static const double kStep = (kHighest - kLowest) / static_cast<double>(kNodes - 1);
    std::vector<double> m_values;
};

} // namespace

double attractionAtSaturation(double reducedPressure) {
    static const AttractionTable kTable;
    return kTable.at(std::log(reducedPressure));
}

namespace {

/// The lopsided term of a pair, x y (x - y)/(x + y), of the second degree as all else in a, so that a stays
/// half the sum of x da/dx. Derivatives by x, by x twice, and by x and y.
struct Lopsided {
    double byFirst = 0;
    double byFirstTwice = 0;
    double byBoth = 0;

    Lopsided(double x, double y, bool second) {
        const double sum = x + y;
        if (!(sum > 0)) {
            return;
        }
        const double u = x / sum;
        const double v = y / sum;
        byFirst = y * (u * u + 2 * u * v - v * v);
        if (second) {
            byFirstTwice = 4 * v * v * v;
            byBoth = (u - v) * (1 + 2 * u * v);
        }
    }
};

/// Half of da/dx of one substance.
double weightedAttraction(const MixtureAt& mixture, const Numbers& fractions, std::size_t row) {
    const std::size_t count = mixture.count;
    double sum = 0;
    for (std::size_t column = 0; column < count; ++column) {
        sum += fractions[column] * mixture.attraction[row * count + column];
    }
    for (std::size_t column = 0; mixture.lopsided && column < count; ++column) {
        const double asymmetry = mixture.asymmetry[row * count + column];
        if (asymmetry != 0) {
            sum -= asymmetry * Lopsided(fractions[row], fractions[column], false).byFirst;
        }
    }
    return sum;
}

/// Half of the second derivatives of a by the fractions.
void secondAttraction(const MixtureAt& mixture, const Numbers& fractions,
                      std::array<double, kMostSubstances * kMostSubstances>& half) {
    const std::size_t count = mixture.count;
    std::copy_n(mixture.attraction.begin(), count * count, half.begin());
    for (std::size_t row = 0; mixture.lopsided && row < count; ++row) {
        for (std::size_t column = 0; column < count; ++column) {
            const double asymmetry = mixture.asymmetry[row * count + column];
            if (asymmetry != 0) {
                const Lopsided term(fractions[row], fractions[column], true);
                half[row * count + row] -= asymmetry * term.byFirstTwice;
                half[row * count + column] -= asymmetry * term.byBoth;
            }
        }
    }
}

} // namespace

double mixtureAttraction(const MixtureAt& mixture, const Numbers& fractions) {
    double attraction = 0;
    for (std::size_t row = 0; row < mixture.count; ++row) {
        attraction += fractions[row] * weightedAttraction(mixture, fractions, row);
    }
    return attraction;
}

void evaluatePhase(const MixtureAt& mixture, const Numbers& fractions, double kilopascal, Phase phase,
                   bool derivatives, PhaseState& state) {
    const std::size_t count = mixture.count;
    Numbers weighted; // sum of x a
    double attraction = 0;
    double covolume = 0;
    for (std::size_t row = 0; row < count; ++row) {
        weighted[row] = weightedAttraction(mixture, fractions, row);
        attraction += fractions[row] * weighted[row];
        covolume += fractions[row] * mixture.covolume[row];
    }
    const double thermal = kGasConstant * mixture.kelvin;
    const double a = attraction * kilopascal / (thermal * thermal);
    const double b = covolume * kilopascal / thermal;
    const double z = compressibility(a, b, phase);
    const double logarithm = attractionLogarithm(z, b);
    const double term = a / (2 * kRoot2 * b);
    const double free = std::log(z - b);
    state.compressibility = z;
    for (std::size_t row = 0; row < count; ++row) {
        const double ratio = mixture.covolume[row] / covolume;
        state.logFugacity[row] =
            ratio * (z - 1) - free - term * logarithm * (2 * weighted[row] / attraction - ratio);
    }
    if (!derivatives) {
        return;
    }
    std::array<double, kMostSubstances * kMostSubstances> second;
    secondAttraction(mixture, fractions, second);
    // of z by A and B, from the cubic; of the logarithm by z and B
    const double slope = (3 * z - 2 * (1 - b)) * z + a - b * (2 + 3 * b);
    const double zByA = -(z - b) / slope;
    const double zByB = -((z - 2 - 6 * b) * z - a + b * (2 + 3 * b)) / slope;
    const double above = z + (1 + kRoot2) * b;
    const double below = z + (1 - kRoot2) * b;
    const double logByZ = 1 / above - 1 / below;
    const double logByB = (1 + kRoot2) / above - (1 - kRoot2) / below;
    const auto change = [&](std::size_t row, double dA, double dB, double dTerm, double dRatio,
                            double dShare) {
        const double dZ = zByA * dA + zByB * dB;
        const double ratio = mixture.covolume[row] / covolume;
        const double share = 2 * weighted[row] / attraction - ratio;
        return dRatio * (z - 1) + ratio * dZ - (dZ - dB) / (z - b) -
               (dTerm * logarithm + term * (logByZ * dZ + logByB * dB)) * share -
               term * logarithm * (dShare - dRatio);
    };
    for (std::size_t row = 0; row < count; ++row) {
        state.byLogPressure[row] = change(row, a, b, 0, 0, 0);
        for (std::size_t column = 0; column < count; ++column) {
            const double aShare = 2 * weighted[column] / attraction; // of d attraction
            const double bShare = mixture.covolume[column] / covolume;
            state.byFraction[row * count + column] = change(
                row, a * aShare, b * bShare, term * (aShare - bShare),
                -mixture.covolume[row] / covolume * bShare,
                2 * second[row * count + column] / attraction - 2 * weighted[row] / attraction * aShare);
        }
    }
}

} // namespace tarebook
