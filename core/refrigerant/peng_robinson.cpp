#include "core/refrigerant/peng_robinson.h"

#include <algorithm>
#include <cmath>
#include <numbers>

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

double attractionAtSaturation(double reducedPressure, double firstGuess) {
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

std::vector<double> logFugacities(const MixtureAt& mixture, const std::vector<double>& fractions,
                                  double kilopascal, Phase phase) {
    const std::size_t count = fractions.size();
    std::vector<double> weighted(count, 0);
    double attraction = 0;
    double covolume = 0;
    for (std::size_t row = 0; row < count; ++row) {
        for (std::size_t column = 0; column < count; ++column) {
            weighted[row] += fractions[column] * mixture.attraction[row * count + column];
        }
        attraction += fractions[row] * weighted[row];
        covolume += fractions[row] * mixture.covolume[row];
    }
    const double thermal = kGasConstant * mixture.kelvin;
    const double a = attraction * kilopascal / (thermal * thermal);
    const double b = covolume * kilopascal / thermal;
    const double z = compressibility(a, b, phase);
    const double logarithm = a / (2 * kRoot2 * b) * attractionLogarithm(z, b);
    std::vector<double> logarithms(count);
    for (std::size_t row = 0; row < count; ++row) {
        const double ratio = mixture.covolume[row] / covolume;
        logarithms[row] =
            ratio * (z - 1) - std::log(z - b) - logarithm * (2 * weighted[row] / attraction - ratio);
    }
    return logarithms;
}

} // namespace tarebook
