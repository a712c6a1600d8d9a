// No standard holds for what scales send: the lines are of forms in common use, from memory. The masses are
// checked against the published pound (NIST Special Publication 811, appendix B.8).
#include "core/quantity/scale_line.h"

#include <gtest/gtest.h>

using namespace tarebook;

namespace {
using Rest = ScaleLine::Rest;
using Kind = ScaleLine::Kind;

ScaleLine line(std::string_view text, std::string_view unit = {}) {
    auto read = parseScaleLine(text, unit);
    EXPECT_TRUE(read) << text << ": " << (read ? "" : read.error().text());
    return read ? std::move(read).value() : ScaleLine{};
}
} // namespace

TEST(ScaleLineTest, ReadsTheWeightToTheMilligram) {
    EXPECT_EQ(line("ST,GS,+  61.8 lb").mass.milligrams(), 28'032'008); // 61.8 x 453592.37
    EXPECT_EQ(line("ST,GS,+0021.64kg").mass.milligrams(), 21'640'000);
    EXPECT_EQ(line("   61.8 lb").mass.milligrams(), 28'032'008);
    EXPECT_EQ(line("61lb 14.0oz").mass.milligrams(), Mass::parse("61 lb 14 oz").value().milligrams());
    EXPECT_EQ(line("ST,GS,+61# 14oz").mass.milligrams(), Mass::parse("61 lb 14 oz").value().milligrams());
    EXPECT_EQ(line("61.8#").mass.milligrams(), 28'032'008);
    EXPECT_EQ(line("21.64 KGS").mass.milligrams(), 21'640'000);
    EXPECT_EQ(line("S 4350 g").mass.milligrams(), 4'350'000);
    EXPECT_EQ(line("US,NT,-   0.5 lb").mass.milligrams(), -226'796); // 0.5 x 453592.37 = 226796.185
    EXPECT_EQ(line("ST,GS,+  61.8 LBS").text, "61.8 lbs");
    EXPECT_EQ(line("- 0.5 kg").text, "-0.5 kg");
}

TEST(ScaleLineTest, SaysWhetherTheScaleIsAtRestAndWhatItShows) {
    EXPECT_EQ(line("ST,GS,+61.8lb").rest, Rest::still);
    EXPECT_EQ(line("ST,GS,+61.8lb").kind, Kind::gross);
    EXPECT_EQ(line("US,NT,+61.8lb").rest, Rest::moving);
    EXPECT_EQ(line("US,NT,+61.8lb").kind, Kind::net);
    EXPECT_EQ(line("S D 61.8 lb").rest, Rest::moving);
    EXPECT_EQ(line("61.8 lb ?").rest, Rest::moving);
    EXPECT_EQ(line("61.8 lb G").kind, Kind::gross);
    EXPECT_EQ(line("61.8 lb").rest, Rest::unsaid);
    EXPECT_EQ(line("61.8 lb").kind, Kind::unsaid);
}

TEST(ScaleLineTest, TakesTheUnitThatWasSetOnlyWhereTheScaleSendsNone) {
    EXPECT_EQ(line("+ 61.8", "lb").mass.milligrams(), 28'032'008);
    EXPECT_EQ(line("21.64 kg", "lb").mass.milligrams(), 21'640'000);
    // A large G after the number is gross; read as grams it would be a thousandth of the weight.
    EXPECT_EQ(line("21.64 G", "kg").mass.milligrams(), 21'640'000);
    EXPECT_EQ(line("21.64 G", "kg").kind, Kind::gross);
    const auto bare = parseScaleLine("61.8");
    ASSERT_FALSE(bare);
    EXPECT_NE(bare.error().text().find("has no unit"), std::string::npos) << bare.error().text();
}

TEST(ScaleLineTest, GuessesAtNothing) {
    for (const char* text :
         {"", "lb", "OL", "OL,GS,+99999 lb", "------", "++++++", "+-61.8 lb", "ST,XX,+61.8 lb", "61.8 stone",
          "61,8 lb", "1.2.3 kg", "T 61.8 lb", "hello", "\x02\x41 61.8 lb"}) {
        const auto read = parseScaleLine(text, "lb");
        EXPECT_FALSE(read) << text << " was read as " << (read ? read.value().text : "");
        if (!read) {
            EXPECT_FALSE(read.error().right.empty()) << text;
        }
    }
}
