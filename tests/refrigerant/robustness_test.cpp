#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <random>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "core/refrigerant/cylinder_state.h"
#include "core/refrigerant/saturation.h"

using namespace tarebook;

namespace {

// GCC says by a name that it watches every step, Clang by a feature; either takes ten times as long.
#if defined(__has_feature)
#if __has_feature(address_sanitizer)
#define TAREBOOK_WATCHED
#endif
#elif defined(__SANITIZE_ADDRESS__)
#define TAREBOOK_WATCHED
#endif
#if defined(TAREBOOK_WATCHED)
constexpr int kMixtures = 30'000;
#else
constexpr int kMixtures = 1'000'000;
#endif

/// TAREBOOK_MIXTURES sets another number of random mixtures.
int mixturesToTry() {
    const char* text = std::getenv("TAREBOOK_MIXTURES");
    return text == nullptr ? kMixtures : std::max(1, std::atoi(text));
}

class RandomMixtures {
public:
    explicit RandomMixtures(const Catalogue& catalogue) {
        for (const RefrigerantFacts* facts : catalogue.allFacts()) {
            if (facts->hasProperties && !facts->blend) {
                m_names.push_back(facts->contents.front().designation);
            }
        }
    }
    /// One to twelve substances; now and then one holds all but a thousandth of a per cent.
    Contents next() {
        std::map<std::string, double> parts;
        const std::size_t count = 1 + m_random() % 12;
        for (std::size_t part = 0; part < count; ++part) {
            parts[m_names[m_random() % m_names.size()]] = share();
        }
        if (m_random() % 8 == 0) {
            parts.begin()->second = 1e5 * static_cast<double>(parts.size());
        }
        double total = 0;
        Contents contents;
        for (const auto& [name, part] : parts) {
            total += part;
        }
        for (const auto& [name, part] : parts) {
            contents.push_back({name, part / total});
        }
        return contents;
    }
    double celsius() { return std::uniform_real_distribution<double>(-40, 64)(m_random); }
    double share() { return std::uniform_real_distribution<double>(1e-4, 1)(m_random); }
    void shuffle(Contents& contents) { std::shuffle(contents.begin(), contents.end(), m_random); }

private:
    std::mt19937_64 m_random{20261125};
    std::vector<std::string> m_names;
};

std::string textOf(const Contents& contents, double celsius) {
    std::string text = fmt::format("{:.6f} degC", celsius);
    for (const Component& component : contents) {
        text += fmt::format(" {}:{:.8f}", component.designation, component.massShare);
    }
    return text;
}

bool finite(const Saturation& state) {
    return std::isfinite(state.bubble.kilopascal()) && state.dew.kilopascal() > 0 &&
           state.liquid.kilogramsPerCubicMetre() > state.vapour.kilogramsPerCubicMetre() &&
           state.vapour.kilogramsPerCubicMetre() > 0 && std::isfinite(state.liquid.kilogramsPerCubicMetre());
}

} // namespace

// Thermodynamics: the bubble pressure is not below the dew pressure, saturation pressure rises and liquid
// density falls with temperature, and neither order nor an absent component nor a hair's breadth matters.
TEST(Robustness, RandomMixturesAreOrderlyOrExplained) {
    const auto catalogue = Catalogue::load(TAREBOOK_RESOURCE_DIR "/refrigerants");
    ASSERT_TRUE(catalogue);
    const Catalogue& known = catalogue.value();
    RandomMixtures mixtures(known);
    int answered = 0;
    int unexplained = 0;
    int disorderly = 0;
    const int rounds = mixturesToTry();
    for (int round = 0; round < rounds; ++round) {
        const Contents contents = mixtures.next();
        const double celsius = mixtures.celsius();
        const auto state = saturationAt(known, contents, Temperature::fromCelsius(celsius));
        if (!state) {
            unexplained += state.error().wrong.find("not found") != std::string::npos ? 1 : 0;
            EXPECT_FALSE(state.error().wrong.empty());
            continue;
        }
        ++answered;
        const Saturation& here = state.value();
        ASSERT_TRUE(finite(here)) << textOf(contents, celsius);
        EXPECT_GE(here.bubble.kilopascal(), here.dew.kilopascal() * (1 - 1e-8)) << textOf(contents, celsius);
        Contents other = contents;
        mixtures.shuffle(other);
        other.push_back({"R40", 0.0});
        const auto same = saturationAt(known, other, Temperature::fromCelsius(celsius));
        ASSERT_TRUE(same) << textOf(contents, celsius);
        EXPECT_NEAR(same.value().bubble.kilopascal() / here.bubble.kilopascal(), 1, 1e-7)
            << textOf(contents, celsius);
        const auto near = saturationAt(known, contents, Temperature::fromCelsius(celsius + 1e-3));
        const auto warmer = saturationAt(known, contents, Temperature::fromCelsius(celsius + 0.5));
        if (near && warmer) {
            const bool orderly =
                warmer.value().bubble > here.bubble && warmer.value().liquid < here.liquid &&
                std::abs(near.value().bubble.kilopascal() / here.bubble.kilopascal() - 1) < 1e-3;
            disorderly += orderly ? 0 : 1;
            if (!orderly && disorderly < 6) {
                fmt::print("disorderly: {}\n", textOf(contents, celsius));
            }
        }
    }
    fmt::print("{} mixtures, {} answered, {} iterations without an answer, {} disorderly\n", rounds, answered,
               unexplained, disorderly);
    EXPECT_GT(answered, rounds / 3);
    EXPECT_LE(unexplained, rounds / 500);
    EXPECT_EQ(disorderly, 0);
}
