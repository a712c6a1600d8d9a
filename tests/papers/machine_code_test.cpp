// The codes of a serial as modules. How a reader takes them off the printed label: tests/gui/labels_test.cpp.
// Sizes: ISO/IEC 18004 (version 1 has 21 x 21 modules and four more with each version) and ISO/IEC 15417
// (eleven modules a character, thirteen for the stop), from memory.
#include "core/papers/machine_code.h"

#include <gtest/gtest.h>

using namespace tarebook;

TEST(MachineCodeTest, AQrCodeHasAFindPatternInThreeCorners) {
    const MachineCode code = machineCode(Symbology::qr, "A101").value();
    EXPECT_EQ(code.width, 21);
    EXPECT_EQ(code.height, 21);
    EXPECT_EQ(code.quiet, 4);
    for (const auto& [left, top] : {std::pair(0, 0), std::pair(14, 0), std::pair(0, 14)}) {
        for (int row = 0; row < 7; ++row) {
            for (int column = 0; column < 7; ++column) {
                const int ring = std::max(std::abs(column - 3), std::abs(row - 3));
                EXPECT_EQ(code.at(left + column, top + row), ring != 2) << column << ' ' << row;
            }
        }
    }
    EXPECT_EQ((machineCode(Symbology::qr, std::string(40, 'w')).value().width - 21) % 4, 0);
}

TEST(MachineCodeTest, BarsAreElevenModulesACharacter) {
    // Start, four letters and digits, check, stop: no run of digits is long enough for the set of pairs.
    const MachineCode code = machineCode(Symbology::code128, "AB-C").value();
    EXPECT_EQ(code.width, (1 + 4 + 1) * 11 + 13);
    EXPECT_EQ(code.height, 1);
    EXPECT_EQ(code.quiet, 10);
    // Start B is 11010010000, the stop 1100011101011.
    std::string bars;
    for (int column = 0; column < code.width; ++column) {
        bars += code.at(column, 0) ? '1' : '0';
    }
    EXPECT_TRUE(bars.starts_with("11010010000")) << bars;
    EXPECT_TRUE(bars.ends_with("1100011101011")) << bars;
}

TEST(MachineCodeTest, WhatCannotBeCodedSaysWhy) {
    const auto bars = machineCode(Symbology::code128, "Å1");
    ASSERT_FALSE(bars);
    EXPECT_NE(bars.error().text().find("Å1"), std::string::npos) << bars.error().text();
    EXPECT_NE(bars.error().text().find("QR"), std::string::npos) << bars.error().text();
    EXPECT_TRUE(machineCode(Symbology::qr, "Å1"));
    EXPECT_FALSE(machineCode(Symbology::code128, ""));
    EXPECT_FALSE(machineCode(Symbology::qr, ""));
    EXPECT_FALSE(machineCode(Symbology::qr, std::string(5'000, 'x'))) << "2,331 bytes at level M, version 40";
}
