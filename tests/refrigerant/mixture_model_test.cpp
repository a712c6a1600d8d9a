#include <cmath>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "core/base/table.h"
#include "core/refrigerant/parts.h"
#include "core/refrigerant/saturation.h"
#include "tests/refrigerant/catalogue_once.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

Parts partsFor(const std::string& text) {
    return partsOf(catalogue(), catalogue().contents(text).value()).value();
}

Saturation at(const std::string& text, double celsius) {
    const auto found =
        saturationAt(catalogue(), catalogue().contents(text).value(), Temperature::fromCelsius(celsius));
    EXPECT_TRUE(found) << text << (found ? "" : found.error().text());
    return found ? found.value() : Saturation{};
}

/// Mole fractions of the parts as evaluatePhase takes them.
Numbers unevenFractions(const Parts& parts) {
    Numbers fractions{};
    double sum = 0;
    for (std::size_t part = 0; part < parts.count; ++part) {
        fractions[part] = static_cast<double>(part * part + 1);
        sum += fractions[part];
    }
    for (std::size_t part = 0; part < parts.count; ++part) {
        fractions[part] /= sum;
    }
    return fractions;
}

} // namespace

// Thermodynamics: fugacities come from one Gibbs energy, so at fixed temperature and pressure the sum of
// x d ln(phi) along any change of composition is nothing (Gibbs and Duhem), with lopsided pairs as well.
TEST(MixtureModel, FugacitiesComeFromOneEnergy) {
    const Parts parts = partsFor("R-744:1+R-32:1+R-1234yf:1+R-600a:1+R-12:1");
    MixtureAt mixture;
    mixtureAt(parts, 298.15, mixture);
    ASSERT_TRUE(mixture.lopsided);
    const Numbers fractions = unevenFractions(parts);
    constexpr double kStep = 1e-6;
    for (const Phase phase : {Phase::liquid, Phase::vapour}) {
        PhaseState here;
        evaluatePhase(mixture, fractions, 400, phase, true, here);
        for (std::size_t column = 0; column < parts.count; ++column) {
            Numbers more = fractions;
            Numbers less = fractions;
            more[column] += kStep;
            less[column] -= kStep;
            PhaseState above;
            PhaseState below;
            evaluatePhase(mixture, more, 400, phase, false, above);
            evaluatePhase(mixture, less, 400, phase, false, below);
            double sum = 0;
            for (std::size_t row = 0; row < parts.count; ++row) {
                const double slope = (above.logFugacity[row] - below.logFugacity[row]) / (2 * kStep);
                EXPECT_NEAR(slope, here.byFraction[row * parts.count + column], 1e-6 * (1 + std::abs(slope)));
                sum += fractions[row] * slope;
            }
            // what is left is the same for every column: changes that keep the sum of the fractions have none
            double whole = 0;
            for (std::size_t row = 0; row < parts.count; ++row) {
                for (std::size_t other = 0; other < parts.count; ++other) {
                    whole += fractions[row] * fractions[other] * here.byFraction[row * parts.count + other];
                }
            }
            EXPECT_NEAR(sum, whole, 1e-6);
        }
    }
}

// A pair read either way round is one pair: k(x) of README.md in resources/refrigerants.
TEST(MixtureModel, APairIsTheSameFromBothSides) {
    const Substance& one = *catalogue().substance("R32");
    const Substance& other = *catalogue().substance("R600");
    EXPECT_NE(catalogue().pair(one, other).asymmetry, 0);
    EXPECT_EQ(catalogue().pair(one, other).asymmetry, -catalogue().pair(other, one).asymmetry);
    EXPECT_EQ(catalogue().pair(one, other).interaction, catalogue().pair(other, one).interaction);
    const double forward = at("R-32:0.9+R-600:0.1", 25).bubble.kilopascal();
    EXPECT_NEAR(at("R-600:0.1+R-32:0.9", 25).bubble.kilopascal() / forward, 1, 1e-9);
}

// Every number that was fitted says to what: m, k0 and k1 of a pair that no row has come from the rule.
TEST(MixtureModel, FittedNumbersNameTheirRows) {
    const auto table = readTableFile(TAREBOOK_RESOURCE_DIR "/refrigerants/pair-asymmetry.csv");
    ASSERT_TRUE(table);
    const auto column = [&](const char* name) {
        return static_cast<std::size_t>(table.value().column(name));
    };
    for (const auto& row : table.value().rows) {
        const bool rows = row[column("status")] == "rows";
        EXPECT_TRUE(rows || row[column("status")] == "rule") << row[0] << row[1];
        EXPECT_EQ(rows, !row[column("fitted_to")].empty()) << row[0] << row[1];
        EXPECT_EQ(rows, row[column("n_rows")] != "0") << row[0] << row[1];
    }
    EXPECT_GT(table.value().rows.size(), 100U);
}

// At an azeotrope both phases are alike in composition and still two; R-513A, R-134a with R-1234yf, is listed
// in ASHRAE 34 for being so near one. Every share between must be answered, and the dew pressure must meet
// the bubble pressure somewhere.
TEST(MixtureModel, AzeotropesAreAnswered) {
    double nearest = 1;
    for (int share = 300; share <= 700; ++share) {
        const Saturation state = at(fmt::format("R-1234yf:{}+R-134a:{}", share, 1000 - share), 25);
        nearest = std::min(nearest, state.bubble.kilopascal() / state.dew.kilopascal() - 1);
    }
    EXPECT_LT(nearest, 1e-6);
    EXPECT_GE(nearest, -1e-9);
}

// Pairs that no table has follow their classes. Fluorocarbons with hydrocarbons boil well above Raoult's
// law: common knowledge of the trade, as R-290 in R-134a or R-600a in R-22 (both in the tables) do.
TEST(MixtureModel, UnknownPairsFollowTheirClasses) {
    const Substance& pentane = *catalogue().substance("R601");
    const Substance& fluorinated = *catalogue().substance("R236ea");
    const Pair& pair = catalogue().pair(pentane, fluorinated);
    EXPECT_FALSE(pair.fitted);
    EXPECT_GT(pair.interaction, 0.05);
    const Saturation state = at("R-601:0.2+R-236ea:0.8", 25);
    const Parts parts = partsFor("R-601:0.2+R-236ea:0.8");
    double raoult = 0;
    for (std::size_t part = 0; part < parts.count; ++part) {
        raoult += parts.moles[part] * parts.substances[part]->saturationPressure.at(298.15);
    }
    EXPECT_GT(state.bubble.kilopascal(), 1.1 * raoult);
    EXPECT_GE(state.bubbleUncertaintyPercent, pair.pressureErrorPercent);
    EXPECT_FALSE(state.remarks.empty());
}

// What the model cannot follow it refuses: a liquid that would divide (bubble pressure below dew pressure),
// and a pressure that falls as it gets warmer.
TEST(MixtureModel, RefusesWhatIsNoLiquidUnderItsVapour) {
    for (const auto& [text, celsius] :
         {std::pair("R-365mfc:0.557+R-601:0.443", -20.0), std::pair("R-14:0.421+R-236ea:0.579", -17.0)}) {
        const auto found =
            saturationAt(catalogue(), catalogue().contents(text).value(), Temperature::fromCelsius(celsius));
        ASSERT_FALSE(found) << text;
        EXPECT_NE(found.error().wrong.find("which the model does not follow"), std::string::npos)
            << found.error().wrong;
    }
}
