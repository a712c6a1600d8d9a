#include "core/quantity/mass.h"

#include <limits>
#include <random>

#include <fmt/format.h>
#include <gtest/gtest.h>

using tarebook::Mass;

namespace {
std::int64_t milligrams(std::string_view text) {
    const auto read = Mass::parse(text);
    return read ? read.value().milligrams() : -1;
}
template <typename A, typename B>
concept Addable = requires(A a, B b) {
    a + b;
};
static_assert(!Addable<Mass, double> && !Addable<Mass, Mass>, "sums of masses are checked by plus()");
} // namespace

// Source: NIST Special Publication 811, appendix B.8: 1 lb (avoirdupois) = 0.453 592 37 kg exactly;
// 1 oz = 28.349 523 125 g exactly.
TEST(Mass, UnitsArePublishedOnes) {
    EXPECT_EQ(milligrams("1 lb"), 453'592);
    EXPECT_EQ(milligrams("100 lb"), 45'359'237);
    EXPECT_EQ(milligrams("1 oz"), 28'350);
    EXPECT_EQ(milligrams("1000 oz"), 28'349'523);
    EXPECT_EQ(milligrams("21.6 kg"), 21'600'000);
    EXPECT_EQ(milligrams("250 g"), 250'000);
    EXPECT_EQ(milligrams("47.7lbs"), milligrams(" 47.7 lb "));
    EXPECT_EQ(milligrams("61 lb 14 oz"), milligrams("61 lb") + milligrams("14 oz"));
}

// What people write and scales print for the same units; `#` behind a number is a pound in the United States
// (common usage, from memory). 14 oz of 28.349523125 g are 396.893324 g.
TEST(Mass, UnitsByTheirOtherNames) {
    EXPECT_EQ(milligrams("28 kgs"), 28'000'000);
    EXPECT_EQ(milligrams("28 Kilograms"), 28'000'000);
    EXPECT_EQ(milligrams("1 kilogram"), 1'000'000);
    EXPECT_EQ(milligrams("250 grams"), 250'000);
    EXPECT_EQ(milligrams("2 pounds"), milligrams("2 lb"));
    EXPECT_EQ(milligrams("14 ounces"), milligrams("14 oz"));
    EXPECT_EQ(milligrams("61#"), 27'669'135); // 61 x 453.59237 g
    for (const char* text : {"61# 14oz", "61#14oz", "61 # 14.0 oz", "61 pounds 14 ounces", "61lbs14oz"}) {
        EXPECT_EQ(milligrams(text), 28'066'028) << text; // 61 x 453.59237 g + 14 x 28.349523125 g
    }
    for (const char* text : {"# 61", "61##", "61 # 14", "61 kg 14 oz", "61# 16oz", "61 lb 16 oz", "61# 14#",
                             "61 lbkgs", "61, # 14oz"}) {
        EXPECT_EQ(milligrams(text), -1) << text;
    }
}

TEST(Mass, RefusesWithWhatWouldBeRight) {
    for (const char* text : {"", "12", "lb", "-3 lb", "1e3 kg", "1.2.3 kg", "10 stone", "1000000000000 lb",
                             "5 lb 17 oz", "3 oz 2 lb", "1,5 kg", "99999999999999999999 kg"}) {
        const auto read = Mass::parse(text);
        ASSERT_FALSE(read) << text;
        EXPECT_FALSE(read.error().right.empty()) << text;
    }
    EXPECT_FALSE(Mass::parse(std::string(10'000, '1') + " lb"));
    EXPECT_FALSE(Mass::parse(std::string_view("12 lb\0", 6)));
}

TEST(Mass, SaysWhatIsMissing) {
    EXPECT_NE(Mass::parse("279").error().text().find("279 lb or 279 kg"), std::string::npos);
    EXPECT_NE(Mass::parse("47,7").error().text().find("comma"), std::string::npos);
    EXPECT_NE(Mass::parse("1,500 lb").error().text().find("comma"), std::string::npos);
    EXPECT_NE(Mass::parse("-3 lb").error().text().find("negative"), std::string::npos);
}

TEST(Mass, SumsThatDoNotFitAreErrors) {
    const Mass largest = Mass::fromMilligrams(std::numeric_limits<std::int64_t>::max());
    EXPECT_FALSE(largest.plus(Mass::fromMilligrams(1)));
    EXPECT_FALSE(Mass::fromMilligrams(-2).minus(largest));
    ASSERT_TRUE(largest.minus(largest));
    EXPECT_EQ(largest.minus(largest).value(), Mass());
}

TEST(Mass, PrintedPoundsAreNeverAboveTheMass) {
    EXPECT_EQ(Mass::fromMilligrams(milligrams("40.59 lb")).poundsFlooredText(), "40.5 lb");
    for (int tenths = 0; tenths < 30'000; ++tenths) {
        const std::string written = fmt::format("{}.{} lb", tenths / 10, tenths % 10);
        ASSERT_EQ(Mass::fromMilligrams(milligrams(written)).poundsFlooredText(), written);
        ASSERT_EQ(Mass::fromMilligrams(milligrams(written)).poundsText(), written);
    }
    EXPECT_EQ(Mass::fromMilligrams(milligrams("40.59 lb")).poundsText(), "40.6 lb");
    EXPECT_EQ(Mass::fromMilligrams(-milligrams("0.54 lb")).poundsText(), "-0.5 lb");
    // Below zero it is what is too much: cut downwards, 5.43 lb more than there is room for are 5.5 lb.
    EXPECT_EQ(Mass::fromMilligrams(-milligrams("5.43 lb")).poundsFlooredText(), "-5.5 lb");
    EXPECT_EQ(Mass::fromMilligrams(-milligrams("5.4 lb")).poundsFlooredText(), "-5.4 lb");
    EXPECT_EQ(Mass::fromMilligrams(-1).poundsFlooredText(), "-0.1 lb");
    EXPECT_EQ(Mass().poundsFlooredText(), "0.0 lb");
    EXPECT_EQ(Mass::fromMilligrams(std::numeric_limits<std::int64_t>::min()).poundsFlooredText(),
              "-20334054642177.5 lb"); // 2^63 mg over 453592.37 mg a pound are 20334054642177.48
    std::mt19937_64 random(7);
    std::uniform_int_distribution<std::int64_t> draw(0, 1'000'000'000);
    for (int round = 0; round < 10'000; ++round) {
        const Mass mass = Mass::fromMilligrams(draw(random));
        EXPECT_EQ(milligrams(mass.kilogramsText()), mass.milligrams());
        EXPECT_LE(milligrams(mass.poundsFlooredText()), mass.milligrams() + 1);
        const std::string missing = Mass::fromMilligrams(-mass.milligrams() - 1).poundsFlooredText();
        EXPECT_GE(milligrams(missing.substr(1)), mass.milligrams());
    }
}
