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

namespace {

constexpr int kNearSteps = 4;

/// The same from a guess near by, which is quicker than the formula of the cubic; by the formula where the
/// guess leads to another root or to none.
double compressibilityNear(double a, double b, Phase phase, double guess) {
    const double c2 = b - 1;
    const double c1 = a - b * (2 + 3 * b);
    const double c0 = -b * (a - b * (1 + b));
    double z = guess;
    for (int step = 0; step < kNearSteps && z > b; ++step) {
        const double slope = (3 * z + 2 * c2) * z + c1;
        const double change = (((z + c2) * z + c1) * z + c0) / slope;
        z -= change;
        if (!(std::abs(change) < 1e-8 * z)) {
            continue; // the next step leaves an error of about the square
        }
        // The cubic rises to its least root below its point of inflection and from its largest root above it.
        const bool above = z > -c2 / 3;
        return slope > 0 && z > b && above == (phase == Phase::vapour) ? z : compressibility(a, b, phase);
    }
    return compressibility(a, b, phase);
}

} // namespace

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

using Square = std::array<double, kMostSubstances * kMostSubstances>;

/// Adds the lopsided terms x y (x - y)/(x + y) of the pairs. They are of the second degree as all else in a,
/// so that a stays the sum of x times half of da/dx. `half`, of the second derivatives, may be nullptr.
void addLopsided(const MixtureAt& mixture, const Numbers& fractions, Numbers& weighted, Square* half) {
    const std::size_t count = mixture.count;
    for (std::size_t row = 0; row < count; ++row) {
        for (std::size_t column = row + 1; column < count; ++column) {
            const double asymmetry = mixture.asymmetry[row * count + column];
            const double sum = fractions[row] + fractions[column];
            if (asymmetry == 0 || !(sum > 0)) {
                continue;
            }
            const double u = fractions[row] / sum;
            const double v = 1 - u;
            weighted[row] -= asymmetry * fractions[column] * (u * u + 2 * u * v - v * v);
            weighted[column] += asymmetry * fractions[row] * (v * v + 2 * u * v - u * u);
            if (half != nullptr) {
                const double both = asymmetry * (u - v) * (1 + 2 * u * v);
                (*half)[row * count + row] -= asymmetry * 4 * v * v * v;
                (*half)[column * count + column] += asymmetry * 4 * u * u * u;
                (*half)[row * count + column] -= both;
                (*half)[column * count + row] -= both;
            }
        }
    }
}

/// Half of da/dx of each substance, and of the second derivatives where asked for; a itself.
double attractionOf(const MixtureAt& mixture, const Numbers& fractions, Numbers& weighted, Square* half) {
    const std::size_t count = mixture.count;
    for (std::size_t row = 0; row < count; ++row) {
        weighted[row] = 0;
        for (std::size_t column = 0; column < count; ++column) {
            weighted[row] += fractions[column] * mixture.attraction[row * count + column];
        }
    }
    if (half != nullptr) {
        std::copy_n(mixture.attraction.begin(), count * count, half->begin());
    }
    if (mixture.lopsided) {
        addLopsided(mixture, fractions, weighted, half);
    }
    double attraction = 0;
    for (std::size_t row = 0; row < count; ++row) {
        attraction += fractions[row] * weighted[row];
    }
    return attraction;
}

} // namespace

double mixtureAttraction(const MixtureAt& mixture, const Numbers& fractions) {
    Numbers weighted;
    return attractionOf(mixture, fractions, weighted, nullptr);
}

double phaseCompressibility(const MixtureAt& mixture, const Numbers& fractions, double kilopascal,
                            Phase phase, double guess) {
    double covolume = 0;
    for (std::size_t row = 0; row < mixture.count; ++row) {
        covolume += fractions[row] * mixture.covolume[row];
    }
    const double thermal = kGasConstant * mixture.kelvin;
    return compressibilityNear(mixtureAttraction(mixture, fractions) * kilopascal / (thermal * thermal),
                               covolume * kilopascal / thermal, phase, guess);
}

void evaluatePhase(const MixtureAt& mixture, const Numbers& fractions, double kilopascal, Phase phase,
                   bool derivatives, PhaseState& state) {
    const std::size_t count = mixture.count;
    Numbers attractionShare; // d ln a / dx
    Numbers covolumeShare;   // d ln b / dx
    Square second;
    const double attraction =
        attractionOf(mixture, fractions, attractionShare, derivatives ? &second : nullptr);
    double covolume = 0;
    for (std::size_t row = 0; row < count; ++row) {
        covolume += fractions[row] * mixture.covolume[row];
    }
    for (std::size_t row = 0; row < count; ++row) {
        attractionShare[row] *= 2 / attraction;
        covolumeShare[row] = mixture.covolume[row] / covolume;
    }
    const double thermal = kGasConstant * mixture.kelvin;
    const double a = attraction * kilopascal / (thermal * thermal);
    const double b = covolume * kilopascal / thermal;
    const double z = compressibilityNear(a, b, phase, state.compressibility);
    const double logarithm = attractionLogarithm(z, b);
    const double term = a / (2 * kRoot2 * b);
    const double free = std::log(z - b);
    state.compressibility = z;
    for (std::size_t row = 0; row < count; ++row) {
        state.logFugacity[row] = covolumeShare[row] * (z - 1) - free -
                                 term * logarithm * (attractionShare[row] - covolumeShare[row]);
    }
    if (!derivatives) {
        return;
    }
    // of z by A and B, from the cubic; of the logarithm by z and B
    const double slope = (3 * z - 2 * (1 - b)) * z + a - b * (2 + 3 * b);
    const double zByA = -(z - b) / slope;
    const double zByB = -((z - 2 - 6 * b) * z - a + b * (2 + 3 * b)) / slope;
    const double above = z + (1 + kRoot2) * b;
    const double below = z + (1 - kRoot2) * b;
    const double logByZ = 1 / above - 1 / below;
    const double logByB = (1 + kRoot2) / above - (1 - kRoot2) / below;
    const double room = 1 / (z - b);
    /// What a change of ln A and ln B does to z, ln(z - B) and the attraction term.
    struct Change {
        double z, free, term;
    };
    const auto changeOf = [&](double byA, double byB) {
        const double dZ = zByA * a * byA + zByB * b * byB;
        return Change{dZ, (dZ - b * byB) * room,
                      term * ((byA - byB) * logarithm + logByZ * dZ + logByB * b * byB)};
    };
    const Change byPressure = changeOf(1, 1);
    for (std::size_t row = 0; row < count; ++row) {
        state.byLogPressure[row] = covolumeShare[row] * byPressure.z - byPressure.free -
                                   byPressure.term * (attractionShare[row] - covolumeShare[row]);
    }
    const double factor = term * logarithm;
    for (std::size_t column = 0; column < count; ++column) {
        const double aShare = attractionShare[column];
        const double bShare = covolumeShare[column];
        const Change change = changeOf(aShare, bShare);
        const double alongRatio = change.z - bShare * (z - 1 + factor);
        for (std::size_t row = 0; row < count; ++row) {
            state.byFraction[row * count + column] =
                covolumeShare[row] * alongRatio - change.free -
                change.term * (attractionShare[row] - covolumeShare[row]) -
                factor * (2 / attraction * second[row * count + column] - attractionShare[row] * aShare);
        }
    }
}

} // namespace tarebook
