#include "core/refrigerant/cylinder_state.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "core/base/table.h"
#include "core/refrigerant/non_condensables.h"
#include "core/refrigerant/saturation.h"
#include "tests/refrigerant/catalogue_once.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

Contents contentsOf(const char* text) {
    const auto read = catalogue().contents(text);
    EXPECT_TRUE(read) << text;
    return read ? read.value() : Contents{};
}

Mass kilograms(double value) {
    return Mass::fromMilligrams(std::llround(value * 1e6));
}

} // namespace

// Source: tests/standards/properties/pressure-rating-55C.csv: the share of liquid at 55 degC after a filling
// of 80 % at 25 degC, with the vapour subtracted, from the multiparameter equations of state cited there.
TEST(CylinderState, LevelAfterThePracticeFillMeetsTheReference) {
    const auto table = readTableFile(TAREBOOK_TEST_DIR "/standards/properties/pressure-rating-55C.csv");
    ASSERT_TRUE(table);
    const auto cell = [&](const auto& row, const char* name) {
        return std::strtod(row[static_cast<std::size_t>(table.value().column(name))].c_str(), nullptr);
    };
    int compared = 0;
    double worst = 0;
    for (const auto& row : table.value().rows) {
        const double level = cell(row, "liquid_fraction_55C_with_vapour");
        const double density = cell(row, "rho_liq_25C_kg_m3");
        if (!(level > 0 && level < 1) || !(density > 0)) {
            continue;
        }
        const auto state =
            cylinderStateAt(catalogue(), contentsOf(row[0].c_str()), kilograms(0.8 * density / 100),
                            Volume::fromLitres(10), Temperature::fromCelsius(55));
        if (!state) {
            fmt::print("{}: {}\n", row[0], state.error().text());
            continue;
        }
        worst = std::max(worst, std::abs(state.value().liquidShare - level));
        const auto warm = saturationAt(catalogue(), contentsOf(row[0].c_str()), Temperature::fromCelsius(55));
        ASSERT_TRUE(warm);
        EXPECT_NEAR(state.value().liquidShare, level, 0.005 + warm.value().densityUncertaintyPercent / 100)
            << row[0];
        EXPECT_EQ(state.value().liquid.milligrams() + state.value().vapour.milligrams(),
                  kilograms(0.8 * density / 100).milligrams());
        ++compared;
    }
    fmt::print("level at 55 degC: {} rows, worst {:.4f} of the volume\n", compared, worst);
    EXPECT_GT(compared, 140);
}

// Saturation temperature is the inverse of saturation pressure. R-22 at 1043.9 kPa and R-134a at 665.4 kPa
// are 25 degC (handbook tables, as in resources/refrigerants/README.md).
TEST(CylinderState, TemperatureOfAPressure) {
    for (const auto& [text, kilopascal] : {std::pair{"R-22", 1043.9}, std::pair{"R-134a", 665.4}}) {
        const auto found =
            bubbleTemperature(catalogue(), contentsOf(text), AbsolutePressure::fromKilopascal(kilopascal));
        ASSERT_TRUE(found) << found.error().text();
        EXPECT_NEAR(found.value().celsius(), 25, 0.02) << text;
    }
    const Contents blend = contentsOf("R-407C");
    for (const double celsius : {-39.0, -10.0, 25.0, 60.0}) {
        const auto state = saturationAt(catalogue(), blend, Temperature::fromCelsius(celsius));
        ASSERT_TRUE(state);
        const auto bubble = bubbleTemperature(catalogue(), blend, state.value().bubble);
        const auto dew = dewTemperature(catalogue(), blend, state.value().dew);
        ASSERT_TRUE(bubble && dew);
        EXPECT_NEAR(bubble.value().celsius(), celsius, 1e-6);
        EXPECT_NEAR(dew.value().celsius(), celsius, 1e-6);
    }
    EXPECT_FALSE(bubbleTemperature(catalogue(), blend, AbsolutePressure::fromKilopascal(1)));
    EXPECT_FALSE(bubbleTemperature(catalogue(), blend, AbsolutePressure::fromKilopascal(9e4)));
    EXPECT_FALSE(bubbleTemperature(catalogue(), blend, AbsolutePressure::fromKilopascal(-1)));
}

// The end points of the split: at the bubble point the vapour vanishes, at the dew point the liquid.
TEST(CylinderState, SplitRunsFromBubbleToDew) {
    const Contents mixture = contentsOf("R-22:0.5+R-134a:0.2+R-32:0.2+R-600a:0.1");
    const Temperature warm = Temperature::fromCelsius(40);
    const auto state = saturationAt(catalogue(), mixture, warm);
    ASSERT_TRUE(state);
    double before = state.value().bubble.kilopascal() * (1 + 1e-9);
    for (double share = 0.999; share > 0.02; share -= 0.07) {
        const double density = share * state.value().liquid.kilogramsPerCubicMetre() +
                               (1 - share) * state.value().vapour.kilogramsPerCubicMetre();
        const auto split =
            cylinderStateAt(catalogue(), mixture, kilograms(density / 100), Volume::fromLitres(10), warm);
        ASSERT_TRUE(split) << split.error().text();
        EXPECT_EQ(split.value().filling, Filling::liquidAndVapour);
        EXPECT_LT(split.value().pressure.kilopascal(), before);
        EXPECT_GE(split.value().pressure.kilopascal(), state.value().dew.kilopascal() * (1 - 1e-9));
        before = split.value().pressure.kilopascal();
    }
}

// Carbon dioxide above 31.1 degC has no liquid. Span and Wagner's equation of state (J. Phys. Chem. Ref. Data
// 25 (1996) 1509) gives 840 kg/m3 at 20 MPa and 628 kg/m3 at 10 MPa, both at 40 degC (values from memory).
TEST(CylinderState, CarbonDioxideAboveCriticalFollowsFromMassAndVolume) {
    for (const auto& [density, megapascal] : {std::pair{840.0, 20.0}, std::pair{628.0, 10.0}}) {
        const auto state = cylinderStateAt(catalogue(), contentsOf("R-744"), kilograms(density / 100),
                                           Volume::fromLitres(10), Temperature::fromCelsius(40));
        ASSERT_TRUE(state) << state.error().text();
        EXPECT_EQ(state.value().filling, Filling::noLiquid);
        EXPECT_NEAR(state.value().pressure.kilopascal() / 1000, megapascal,
                    megapascal * state.value().pressureUncertaintyPercent / 100);
    }
    for (const char* text : {"R-23", "R-508B"}) {
        const auto state = cylinderStateAt(catalogue(), contentsOf(text), kilograms(5),
                                           Volume::fromLitres(10), Temperature::fromCelsius(55));
        ASSERT_TRUE(state) << text;
        EXPECT_EQ(state.value().filling, Filling::noLiquid) << text;
        EXPECT_GT(state.value().pressure.kilopascal(), 4000) << text;
    }
}

// A filling is liquid-full where the reference density of the liquid equals mass over volume: R-22 at 55 degC
// has 1057.2 kg/m3 (pressure-rating-55C.csv).
TEST(CylinderState, LiquidFullTemperature) {
    const auto at =
        liquidFullAt(catalogue(), contentsOf("R-22"), kilograms(10.572), Volume::fromLitres(10), false);
    ASSERT_TRUE(at && at.value());
    EXPECT_NEAR(at.value()->celsius(), 55, 0.1);
    const auto safe =
        liquidFullAt(catalogue(), contentsOf("R-22"), kilograms(10.572), Volume::fromLitres(10), true);
    ASSERT_TRUE(safe && safe.value());
    EXPECT_LT(safe.value()->celsius(), at.value()->celsius());
    const auto never =
        liquidFullAt(catalogue(), contentsOf("R-22"), kilograms(5), Volume::fromLitres(10), true);
    ASSERT_TRUE(never);
    EXPECT_FALSE(never.value());
    const auto full = cylinderStateAt(catalogue(), contentsOf("R-22"), kilograms(10.7),
                                      Volume::fromLitres(10), Temperature::fromCelsius(55));
    ASSERT_TRUE(full);
    EXPECT_EQ(full.value().filling, Filling::liquidFull);
    EXPECT_FALSE(cylinderStateAt(catalogue(), contentsOf("R-22"), kilograms(0), Volume::fromLitres(10),
                                 Temperature::fromCelsius(20)));
}

// Dalton's law is used both ways: a share gives a pressure, and that pressure the share.
TEST(NonCondensables, ShareAndExcessAreInverse) {
    const Contents blend = contentsOf("R-410A");
    const Temperature warm = Temperature::fromCelsius(21.1);
    for (const double share : {0.0, 0.015, 0.2, 0.6}) {
        const auto pressure = pressureWithAir(catalogue(), blend, warm, share);
        ASSERT_TRUE(pressure);
        const auto back = airInGasSpace(catalogue(), blend, warm, pressure.value());
        ASSERT_TRUE(back);
        EXPECT_NEAR(back.value().volumeShare, share, 1e-9);
        EXPECT_LE(back.value().shareFrom, share + 1e-9);
        EXPECT_GE(back.value().shareTo, share - 1e-9);
    }
    EXPECT_FALSE(airInGasSpace(catalogue(), blend, warm, AbsolutePressure::fromKilopascal(1200)));
    EXPECT_FALSE(pressureWithAir(catalogue(), blend, warm, 1.0));
    // Gay-Lussac: an ideal gas at constant volume, 300 K to 330 K, presses 1.1 times as much.
    EXPECT_NEAR(airPressureAt(AbsolutePressure::fromKilopascal(100), Temperature::fromKelvin(300),
                              Temperature::fromKelvin(330), Volume::fromLitres(4), Volume::fromLitres(2))
                    .kilopascal(),
                220, 1e-9);
}
