// What the refrigerant engine costs, beside a plain Peng-Robinson without its tables in the same run.

#include <array>
#include <cmath>
#include <vector>

#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include "core/refrigerant/catalogue.h"
#include "core/refrigerant/cylinder_state.h"
#include "core/refrigerant/saturation.h"
#include "core/rules/fill_limit.h"
#include "core/rules/pressure_class.h"
#include "core/shop/limit_source.h"

namespace {

using namespace tarebook;

const Catalogue& catalogue() {
    static const Catalogue loaded = Catalogue::load(TAREBOOK_RESOURCE_DIR "/refrigerants").value();
    return loaded;
}

/// One number of one substance, without asking for it by name.
void ownPressure(benchmark::State& state) {
    const Substance& substance = *catalogue().substance("R134a");
    double kelvin = 293.15;
    for (auto _ : state) {
        kelvin = kelvin > 323 ? 293.15 : kelvin + 0.37;
        benchmark::DoNotOptimize(substance.saturationPressure.at(kelvin));
    }
}
BENCHMARK(ownPressure);

void ownDensity(benchmark::State& state) {
    const Substance& substance = *catalogue().substance("R134a");
    double kelvin = 293.15;
    for (auto _ : state) {
        kelvin = kelvin > 323 ? 293.15 : kelvin + 0.37;
        benchmark::DoNotOptimize(substance.liquidDensity.at(kelvin));
    }
}
BENCHMARK(ownDensity);

void saturation(benchmark::State& state, const char* text) {
    const Contents contents = catalogue().contents(text).value();
    double celsius = 20;
    for (auto _ : state) {
        celsius = celsius > 50 ? 20 : celsius + 0.37;
        benchmark::DoNotOptimize(saturationAt(catalogue(), contents, Temperature::fromCelsius(celsius)).ok());
    }
}
BENCHMARK_CAPTURE(saturation, pure, "R-134a");
BENCHMARK_CAPTURE(saturation, blend2, "R-410A");
BENCHMARK_CAPTURE(saturation, blend3, "R-407C");
BENCHMARK_CAPTURE(saturation, mixture5, "R-410A:0.5+R-22:0.3+R-134a:0.1+R-290:0.1");

void levelInCylinder(benchmark::State& state, const char* text) {
    const Contents contents = catalogue().contents(text).value();
    const Mass mass = Mass::parse("30 lb").value();
    const Volume volume = Volume::fromLitres(21.6);
    double celsius = 20;
    for (auto _ : state) {
        celsius = celsius > 50 ? 20 : celsius + 0.37;
        benchmark::DoNotOptimize(
            cylinderStateAt(catalogue(), contents, mass, volume, Temperature::fromCelsius(celsius)).ok());
    }
}
BENCHMARK_CAPTURE(levelInCylinder, blend2, "R-410A");
BENCHMARK_CAPTURE(levelInCylinder, mixture5, "R-410A:0.5+R-22:0.3+R-134a:0.1+R-290:0.1");

const Rulebook& rulebook() {
    static const Rulebook loaded =
        Rulebook::load(TAREBOOK_RESOURCE_DIR, "us", Date::of(2026, 11, 25).value()).value();
    return loaded;
}

struct Nameplate {
    Specification mark = Specification::parse("DOT-4BA400").value();
    WaterCapacity capacity = WaterCapacity::parse("47.7 lb").value();
    Mass inside = Mass::parse("30 lb").value();
};

/// The limit by every rule, the pressure class with the pressure at 55 degC, and the level at a temperature;
/// nothing is remembered from one answer to the next.
void fullAnswer(benchmark::State& state, const char* text) {
    const FillRules rules = FillRules::from(rulebook(), catalogue()).value();
    const Contents contents = catalogue().contents(text).value();
    const Nameplate plate;
    double celsius = 20;
    for (auto _ : state) {
        celsius = celsius > 50 ? 20 : celsius + 0.37;
        const LiquidStates states = LiquidStates::of(catalogue(), contents, rules);
        benchmark::DoNotOptimize(fillLimit(rules, states, plate.mark, plate.capacity).ok());
        benchmark::DoNotOptimize(pressureClass(rules, states, plate.mark).suits);
        benchmark::DoNotOptimize(cylinderStateAt(catalogue(), contents, plate.inside, plate.capacity.volume(),
                                                 Temperature::fromCelsius(celsius))
                                     .ok());
    }
}
BENCHMARK_CAPTURE(fullAnswer, blend2, "R-410A");
BENCHMARK_CAPTURE(fullAnswer, mixture5, "R-410A:0.5+R-22:0.3+R-134a:0.1+R-290:0.1");

/// Limits, pressure class and level of 100,000 cylinders with what a shop has; one in twenty holds a mixture
/// of five substances that no other cylinder has. As in a shop, what was asked of the same contents once is
/// kept.
void hundredThousandCylinders(benchmark::State& state) {
    static constexpr std::array<const char*, 19> kPlain = {
        "R-134a", "R-22",   "R-410A", "R-404A",   "R-32", "R-134a", "R-407C", "R-454B", "R-22",  "R-410A",
        "R-448A", "R-134a", "R-507A", "R-1234yf", "R-22", "R-290",  "R-600a", "R-410A", "R-513A"};
    std::vector<std::string> held;
    for (int cylinder = 0; cylinder < 100000; ++cylinder) {
        const auto place = static_cast<std::size_t>(cylinder % 20);
        held.push_back(place < kPlain.size()
                           ? kPlain[place]
                           : fmt::format("R-410A:{}+R-22:0.3+R-134a:0.1+R-290:0.1", 0.4 + cylinder * 2e-6));
    }
    const Nameplate plate;
    for (auto _ : state) {
        const auto source = LimitSource::make(rulebook(), catalogue()).value();
        for (int cylinder = 0; cylinder < 100000; ++cylinder) {
            const LiquidStates& states = *source->states(held[static_cast<std::size_t>(cylinder)]).value();
            benchmark::DoNotOptimize(fillLimit(source->rules(), states, plate.mark, plate.capacity).ok());
            benchmark::DoNotOptimize(pressureClass(source->rules(), states, plate.mark).suits);
            const auto at = Temperature::fromCelsius(20 + cylinder % 30);
            benchmark::DoNotOptimize(
                cylinderStateAt(catalogue(), states.contents, plate.inside, plate.capacity.volume(), at)
                    .ok());
        }
    }
}
BENCHMARK(hundredThousandCylinders)->Unit(benchmark::kMillisecond);

/// Saturation pressure of one substance by the textbook: alpha of Peng and Robinson (1976), fugacities equal,
/// bisection; no table, nothing tuned.
double plainSaturation(double kelvin, double criticalKelvin, double criticalKilopascal, double acentric) {
    constexpr double kGas = 8.314462618;
    const double kappa = 0.37464 + 1.54226 * acentric - 0.26992 * acentric * acentric;
    const double root = 1 + kappa * (1 - std::sqrt(kelvin / criticalKelvin));
    const double a =
        0.45724 * kGas * kGas * criticalKelvin * criticalKelvin / criticalKilopascal * root * root;
    const double b = 0.07780 * kGas * criticalKelvin / criticalKilopascal;
    const auto gap = [&](double pressure) {
        const double A = a * pressure / (kGas * kGas * kelvin * kelvin);
        const double B = b * pressure / (kGas * kelvin);
        const double c2 = B - 1;
        const double c1 = A - 3 * B * B - 2 * B;
        const double c0 = -(A * B - B * B - B * B * B);
        const double q = (3 * c1 - c2 * c2) / 9;
        const double r = (9 * c2 * c1 - 27 * c0 - 2 * c2 * c2 * c2) / 54;
        if (q * q * q + r * r >= 0) {
            return r > 0 ? 1.0 : -1.0;
        }
        const double angle = std::acos(r / std::sqrt(-q * q * q));
        const double size = 2 * std::sqrt(-q);
        const double vapour = size * std::cos(angle / 3) - c2 / 3;
        const double liquid = size * std::cos((angle + 2 * M_PI) / 3) - c2 / 3;
        const auto fugacity = [&](double z) {
            return z - 1 - std::log(z - B) -
                   A / (2.8284271247 * B) * std::log((z + 2.4142135624 * B) / (z - 0.4142135624 * B));
        };
        return fugacity(liquid) - fugacity(vapour);
    };
    double low = criticalKilopascal * 1e-3;
    double high = criticalKilopascal;
    for (int step = 0; step < 40; ++step) {
        const double middle = (low + high) / 2;
        (gap(middle) > 0 ? low : high) = middle;
    }
    return (low + high) / 2;
}

void plainPengRobinson(benchmark::State& state) {
    double celsius = 20;
    for (auto _ : state) {
        celsius = celsius > 50 ? 20 : celsius + 0.37;
        benchmark::DoNotOptimize(plainSaturation(celsius + 273.15, 374.21, 4059.3, 0.32684));
    }
}
BENCHMARK(plainPengRobinson);

/// A mixture by the textbook: alpha as above, k = 0, successive substitution from Wilson's estimate, bubble
/// point and the volume of the liquid; no table, nothing tuned, no derivatives.
class PlainMixture {
public:
    explicit PlainMixture(const Contents& contents) {
        double total = 0;
        for (const Component& part : contents) {
            const Substance& substance = *catalogue().substance(part.designation);
            m_parts.push_back({substance.criticalKelvin, substance.criticalKilopascal,
                               substance.acentricFactor, part.massShare / substance.molarMass});
            total += m_parts.back().share;
        }
        for (Part& part : m_parts) {
            part.share /= total;
        }
    }
    /// kPa.
    double bubble(double kelvin) const {
        const std::size_t count = m_parts.size();
        std::array<double, 8> own{};
        std::array<double, 8> a{};
        std::array<double, 8> b{};
        std::array<double, 8> liquid{};
        double pressure = 0;
        for (std::size_t row = 0; row < count; ++row) {
            const Part& part = m_parts[row];
            const double kappa = 0.37464 + (1.54226 - 0.26992 * part.acentric) * part.acentric;
            const double root = 1 + kappa * (1 - std::sqrt(kelvin / part.kelvin));
            a[row] = 0.45724 * kGas * kGas * part.kelvin * part.kelvin / part.kilopascal * root * root;
            b[row] = 0.07780 * kGas * part.kelvin / part.kilopascal;
            own[row] = part.kilopascal * std::exp(5.373 * (1 + part.acentric) * (1 - part.kelvin / kelvin));
            liquid[row] = part.share;
            pressure += part.share * own[row];
        }
        std::array<double, 8> ratio{};
        for (std::size_t row = 0; row < count; ++row) {
            ratio[row] = own[row] / pressure;
        }
        for (int step = 0; step < 100; ++step) {
            std::array<double, 8> vapour{};
            double sum = 0;
            for (std::size_t row = 0; row < count; ++row) {
                vapour[row] = liquid[row] * ratio[row];
                sum += vapour[row];
            }
            pressure *= sum;
            for (double& share : vapour) {
                share /= sum;
            }
            const auto inLiquid = logFugacities(a, b, liquid, pressure, kelvin, false);
            const auto inVapour = logFugacities(a, b, vapour, pressure, kelvin, true);
            double change = std::abs(sum - 1);
            for (std::size_t row = 0; row < count; ++row) {
                const double next = std::exp(inLiquid[row] - inVapour[row]);
                change = std::max(change, std::abs(next / ratio[row] - 1));
                ratio[row] = next;
            }
            if (change < 1e-8) {
                break;
            }
        }
        return pressure;
    }

private:
    struct Part {
        double kelvin, kilopascal, acentric, share;
    };
    static constexpr double kGas = 8.314462618;
    using Eight = std::array<double, 8>;

    Eight logFugacities(const Eight& a, const Eight& b, const Eight& share, double pressure, double kelvin,
                        bool vapour) const {
        double attraction = 0;
        double covolume = 0;
        Eight weighted{};
        for (std::size_t row = 0; row < m_parts.size(); ++row) {
            for (std::size_t column = 0; column < m_parts.size(); ++column) {
                weighted[row] += share[column] * std::sqrt(a[row] * a[column]);
            }
            attraction += share[row] * weighted[row];
            covolume += share[row] * b[row];
        }
        const double big = attraction * pressure / (kGas * kGas * kelvin * kelvin);
        const double small = covolume * pressure / (kGas * kelvin);
        double z = vapour ? 1 : small * 1.05;
        for (int step = 0; step < 50; ++step) { // Newton on the cubic
            const double value = ((z - 1 + small) * z + big - small * (2 + 3 * small)) * z -
                                 small * (big - small - small * small);
            const double slope = (3 * z - 2 * (1 - small)) * z + big - small * (2 + 3 * small);
            const double next = std::max(z - value / slope, small * 1.0001);
            const bool done = std::abs(next - z) < 1e-12;
            z = next;
            if (done) {
                break;
            }
        }
        Eight answer{};
        const double logarithm = std::log((z + 2.4142135624 * small) / (z - 0.4142135624 * small));
        for (std::size_t row = 0; row < m_parts.size(); ++row) {
            answer[row] = b[row] / covolume * (z - 1) - std::log(z - small) -
                          big / (2.8284271247 * small) *
                              (2 * weighted[row] / attraction - b[row] / covolume) * logarithm;
        }
        return answer;
    }

    std::vector<Part> m_parts;
};

/// Bubble pressures alone, at the five temperatures of the rules and at that of the level: neither dew
/// points, densities, split nor limits.
void plainMixture5(benchmark::State& state) {
    const PlainMixture mixture(catalogue().contents("R-410A:0.5+R-22:0.3+R-134a:0.1+R-290:0.1").value());
    double celsius = 20;
    for (auto _ : state) {
        celsius = celsius > 50 ? 20 : celsius + 0.37;
        for (const double at : {25.0, 50.0, 55.0, 60.0, 65.0, celsius}) {
            benchmark::DoNotOptimize(mixture.bubble(at + 273.15));
        }
    }
}
BENCHMARK(plainMixture5);

} // namespace

BENCHMARK_MAIN();
