#include "core/refrigerant/pressure_check.h"
#include "tests/refrigerant/catalogue_once.h"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

using namespace tarebook;
using namespace tarebook::tests;

namespace {

PressureCheck checked(const char* contents, double celsius, double kilopascal) {
    auto check =
        checkPressure(catalogue(), catalogue().contents(contents).value(), Temperature::fromCelsius(celsius),
                      AbsolutePressure::fromKilopascal(kilopascal));
    EXPECT_TRUE(check) << (check ? "" : check.error().text());
    return check ? std::move(check).value() : PressureCheck{};
}

} // namespace

// R-22 at 25 degC is 1043.9 kPa, R-134a 665.4 kPa (handbook tables, resources/refrigerants/README.md).
TEST(PressureCheck, AgreesWithTheHandbook) {
    const PressureCheck check = checked("R-22", 25, 1043.9);
    EXPECT_EQ(check.meaning, PressureMeaning::agrees);
    EXPECT_FALSE(check.air);
    // From the same tables: 1191.9 kPa at 30 degC (handbook table of R-22, from memory), so about 29 kPa a
    // kelvin.
    EXPECT_NEAR(check.kilopascalPerKelvin, 28, 2);
}

// R-407C and R-22 were made to share pressures, R-290 lies near: the check names them (bubble pressures at
// 25 degC: tests/standards/properties/blend-saturation.csv and pure-saturation.csv).
TEST(PressureCheck, NamesOthersThatShareThePressure) {
    const PressureCheck check = checked("R-290", 25, 952.1);
    EXPECT_EQ(check.meaning, PressureMeaning::agrees);
    EXPECT_LE(check.others.size(), kMostOthers);
    EXPECT_EQ(std::count(check.others.begin(), check.others.end(), "R-290"), 0);
    const PressureCheck own = checked("R-134a", 25, 1043.9); // tagged R-134a, shows what R-22 does
    EXPECT_EQ(own.meaning, PressureMeaning::higher);
    ASSERT_FALSE(own.others.empty());
    EXPECT_EQ(own.others.front(), "R-22");
}

// Dalton: air presses on top of the liquid's own pressure. 100 kPa of air over R-134a at 25 degC, whose
// vapour would press 32.37 kg/m3 / 102.03 kg/kmol x R T = 786 kPa as an ideal gas (pure-saturation.csv): 11.3
// %.
TEST(PressureCheck, HigherMeansAirOrOtherContents) {
    const PressureCheck check = checked("R-134a", 25, 765.4);
    EXPECT_EQ(check.meaning, PressureMeaning::higher);
    ASSERT_TRUE(check.air);
    EXPECT_NEAR(check.air->volumeShare, 0.113, 0.002);
    EXPECT_LT(check.air->shareFrom, check.air->volumeShare);
}

// R-407C at 25 degC: bubble 1189 kPa, dew 1017 kPa (about, from blend-saturation.csv).
TEST(PressureCheck, ABlendBetweenDewAndBubbleHasLittleLiquid) {
    EXPECT_EQ(checked("R-407C", 25, 1090).meaning, PressureMeaning::betweenDewAndBubble);
    EXPECT_EQ(checked("R-407C", 25, 900).meaning, PressureMeaning::lower);
    EXPECT_EQ(checked("R-22", 25, 1000).meaning, PressureMeaning::lower) << "a pure substance has no between";
}

// Root of the sum of squares (JCGM 100:2008, 5.1.2, from memory): what the instruments may err widens what
// agrees, and a thermometer's error counts with the slope of the curve.
TEST(PressureCheck, InstrumentsWidenWhatAgrees) {
    const Contents contents = catalogue().contents("R-22").value();
    const auto with = [&](double kilopascal, const InstrumentError& instruments) {
        return checkPressure(catalogue(), contents, Temperature::fromCelsius(25),
                             AbsolutePressure::fromKilopascal(kilopascal), instruments)
            .value();
    };
    const double bubble = with(1000, {}).expected.bubble.kilopascal();
    const PressureCheck plain = with(bubble + 25, {});
    EXPECT_EQ(plain.meaning, PressureMeaning::higher);
    EXPECT_DOUBLE_EQ(plain.errorKilopascal, plain.uncertaintyKilopascal);
    EXPECT_EQ(with(bubble + 25, {30, 0}).meaning, PressureMeaning::agrees);
    EXPECT_EQ(with(bubble + 25, {0, 1}).meaning, PressureMeaning::agrees) << "a kelvin is worth 28 kPa";
    const PressureCheck both = with(bubble + 25, {3, 1});
    EXPECT_NEAR(both.errorKilopascal,
                std::sqrt(plain.uncertaintyKilopascal * plain.uncertaintyKilopascal + 9 +
                          both.kilopascalPerKelvin * both.kilopascalPerKelvin),
                1e-9);
    EXPECT_GE(both.others.size() + both.moreOthers, plain.others.size() + plain.moreOthers);
}

TEST(PressureCheck, RefusesWhatTheModelRefuses) {
    const auto beyond = checkPressure(catalogue(), {{"R744", 1.0}}, Temperature::fromCelsius(40),
                                      AbsolutePressure::fromKilopascal(8000));
    ASSERT_FALSE(beyond);
    EXPECT_NE(beyond.error().wrong.find("critical"), std::string::npos);
}
