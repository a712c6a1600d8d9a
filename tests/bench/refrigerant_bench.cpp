// What the refrigerant engine costs, beside a plain Peng-Robinson without its tables in the same run.

#include <cmath>
#include <vector>

#include <benchmark/benchmark.h>

#include "core/refrigerant/catalogue.h"
#include "core/refrigerant/cylinder_state.h"
#include "core/refrigerant/saturation.h"

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

/// Level and pressure of 100,000 cylinders with what a shop has, one in twenty of them a mixture.
void hundredThousandCylinders(benchmark::State& state) {
    std::vector<Contents> contents;
    for (const char* text :
         {"R-134a", "R-22",   "R-410A", "R-404A",   "R-32",
          "R-134a", "R-407C", "R-454B", "R-22",     "R-410A",
          "R-448A", "R-134a", "R-507A", "R-1234yf", "R-22",
          "R-290",  "R-600a", "R-410A", "R-513A",   "R-410A:0.5+R-22:0.3+R-134a:0.1+R-290:0.1"}) {
        contents.push_back(catalogue().contents(text).value());
    }
    const Mass mass = Mass::parse("30 lb").value();
    const Volume volume = Volume::fromLitres(21.6);
    for (auto _ : state) {
        for (int cylinder = 0; cylinder < 100000; ++cylinder) {
            const Contents& held = contents[static_cast<std::size_t>(cylinder) % contents.size()];
            const auto at = Temperature::fromCelsius(20 + cylinder % 30);
            benchmark::DoNotOptimize(cylinderStateAt(catalogue(), held, mass, volume, at).ok());
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

} // namespace

BENCHMARK_MAIN();
