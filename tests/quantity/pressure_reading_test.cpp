#include "core/quantity/pressure_reading.h"

#include <gtest/gtest.h>

using namespace tarebook;

// 1 psi is 6.894757 kPa, 1 bar 100 kPa (NIST SP 811).
TEST(PressureReading, UnitsOfGauges) {
    for (const auto& [text, kilopascal] :
         {std::pair{"201 psig", 1385.846}, std::pair{"201psi", 1385.846}, std::pair{"13.9 bar", 1390.0},
          std::pair{" 13.9 bar g ", 1390.0}, std::pair{"1390 kPa", 1390.0}, std::pair{"1.39 MPa", 1390.0},
          std::pair{"-0.2 bar", -20.0}, std::pair{"0 psig", 0.0}}) {
        const auto read = parseGaugePressure(text);
        ASSERT_TRUE(read) << text << ": " << read.error().text();
        EXPECT_NEAR(read.value().kilopascal(), kilopascal, 1e-3) << text;
    }
}

TEST(PressureReading, SaysWhatWouldBeRight) {
    for (const char* text : {"", "psig", "201", "201 psia", "2e3 psig", "nan bar", "-15 psig", "2000 bar",
                             "1 2 bar", "12 inHg"}) {
        const auto read = parseGaugePressure(text);
        ASSERT_FALSE(read) << text;
        EXPECT_FALSE(read.error().right.empty()) << text;
    }
}
