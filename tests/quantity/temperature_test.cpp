#include "core/quantity/temperature.h"

#include <string>

#include <gtest/gtest.h>

using tarebook::Temperature;

// Source: NIST Special Publication 811, appendix B.8: t/degC = T/K - 273.15; t/degC = (t/degF - 32)/1.8.
TEST(Temperature, UnitsArePublishedOnes) {
    const auto celsius = [](const char* text) {
        const auto read = Temperature::parse(text);
        return read ? read.value().celsius() : -999;
    };
    EXPECT_NEAR(celsius("131 F"), 55, 1e-9);
    EXPECT_NEAR(celsius("-40 F"), -40, 1e-9);
    EXPECT_NEAR(celsius("-40 °C"), -40, 1e-9);
    EXPECT_NEAR(celsius("298.15 K"), 25, 1e-9);
}

TEST(Temperature, RefusesWithWhatWouldBeRight) {
    for (const char* text : {"", "21", "C", "21 R", "-300 C", "--3 C", "nan C"}) {
        const auto read = Temperature::parse(text);
        ASSERT_FALSE(read) << text;
        EXPECT_FALSE(read.error().right.empty());
    }
    EXPECT_FALSE(Temperature::parse(std::string(10'000, '1') + " C"));
}
