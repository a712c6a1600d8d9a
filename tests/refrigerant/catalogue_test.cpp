#include "core/refrigerant/catalogue.h"

#include <cmath>
#include <cstdlib>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "core/base/table.h"
#include "core/refrigerant/identity.h"
#include "tests/refrigerant/catalogue_once.h"

using namespace tarebook;
using namespace tarebook::tests;

TEST(Catalogue, OneSpellingOfAny) {
    for (const auto& [text, shown] :
         {std::pair{"r 410a", "R-410A"}, std::pair{"R410A", "R-410A"}, std::pair{"HFC-134a", "R-134a"},
          std::pair{"hcfc22", "R-22"}, std::pair{"RE170", "R-E170"}, std::pair{"R-1234ze(E)", "R-1234ze(E)"},
          std::pair{"  R-C318 ", "R-C318"}}) {
        const auto found = catalogue().designation(text);
        ASSERT_TRUE(found) << text << ": " << found.error().text();
        EXPECT_EQ(found.value(), shown);
    }
}

TEST(Catalogue, EveryDesignationIsReadBack) {
    EXPECT_GE(catalogue().designations().size(), 200U);
    for (const std::string& designation : catalogue().designations()) {
        const auto again = catalogue().designation(designation);
        ASSERT_TRUE(again) << designation;
        EXPECT_EQ(again.value(), designation);
        const RefrigerantFacts* facts = catalogue().facts(designation);
        ASSERT_NE(facts, nullptr);
        EXPECT_EQ(catalogue().displayName(facts->contents), designation);
    }
}

TEST(Catalogue, AsksWhichIsomerAndNamesTheNearest) {
    const auto isomer = catalogue().designation("R-1234ze");
    ASSERT_FALSE(isomer);
    EXPECT_NE(isomer.error().right.find("R-1234ze(E) or R-1234ze(Z)"), std::string::npos);
    const auto typo = catalogue().designation("R-410B4");
    ASSERT_FALSE(typo);
    EXPECT_NE(typo.error().right.find("R-410B"), std::string::npos);
}

// Published AR4 values, ASHRAE Handbook Fundamentals, refrigerants chapter, Table 4 (three significant
// figures), column gwp_ar4_published of resources/refrigerants/blends.csv; rows that the table itself flags
// as mismatched (the Handbook takes 20 for hydrocarbons, EU practice 3) are left out.
TEST(Catalogue, GwpOfBlendsIsThePublishedOne) {
    const auto table = readTableFile(TAREBOOK_RESOURCE_DIR "/refrigerants/blends.csv");
    ASSERT_TRUE(table);
    const auto cell = [&](const auto& row, const char* name) {
        return row[static_cast<std::size_t>(table.value().column(name))];
    };
    int compared = 0;
    for (const auto& row : table.value().rows) {
        const std::string published = cell(row, "gwp_ar4_published");
        if (published.empty() || !cell(row, "gwp_flag").empty() ||
            cell(row, "gwp_ar4_published_source").find("ASHRAE") == std::string::npos) {
            continue;
        }
        const SourcedNumber* gwp = catalogue().facts(row[0])->gwp(GwpSet::ar4);
        ASSERT_NE(gwp, nullptr) << row[0];
        const double value = std::strtod(published.c_str(), nullptr);
        EXPECT_NEAR(gwp->value, value, std::max(1.0, 0.006 * value)) << row[0];
        ++compared;
    }
    EXPECT_GT(compared, 70);
}

// R-454B: A2L, R-32 68.9 % and R-1234yf 31.1 % (ASHRAE Handbook Fundamentals, Table 2).
TEST(Catalogue, CardOfABlend) {
    const RefrigerantFacts* facts = catalogue().facts("r454b");
    ASSERT_NE(facts, nullptr);
    EXPECT_EQ(facts->designation, "R-454B");
    EXPECT_EQ(facts->safetyGroup, "A2L");
    EXPECT_EQ(facts->composition, "R-32 68.9 % + R-1234yf 31.1 %");
    EXPECT_EQ(facts->safetyGroupCertainty, Certainty::published);
    EXPECT_EQ(facts->refrigerantClass, "HFC");
    ASSERT_TRUE(facts->odp);
    EXPECT_EQ(facts->odp->value, 0);
}

TEST(Catalogue, NamesMixturesByTheirLargestShares) {
    const auto mixed = catalogue().contents("R-22:0.7+R-410A:0.3");
    ASSERT_TRUE(mixed);
    EXPECT_EQ(catalogue().displayName(mixed.value()), "MIXED: R-22 70.0 % + R-125 15.0 % + R-32 15.0 %");
    const auto near = catalogue().contents("R-32:0.492+R-125:0.505+R-134a:0.003");
    ASSERT_TRUE(near);
    EXPECT_EQ(catalogue().displayName(near.value()), "R-410A");
    const auto dirty = catalogue().contents("R-32:0.49+R-125:0.50+R-134a:0.01");
    ASSERT_TRUE(dirty);
    EXPECT_EQ(catalogue().displayName(dirty.value()).substr(0, 6), "MIXED:");
}

TEST(Catalogue, TakesTheShopsOwnBlend) {
    const auto parts = catalogue().contents("R-290:60+R-600a:40");
    ASSERT_TRUE(parts);
    const auto extended = catalogue().withBlend("Shop blend 7", parts.value());
    ASSERT_TRUE(extended) << extended.error().text();
    const auto read = extended.value().contents("shop  Blend 7:1+R-22:1");
    ASSERT_TRUE(read);
    ASSERT_EQ(read.value().size(), 3U);
    EXPECT_NEAR(read.value()[1].massShare, 0.3, 1e-12); // R290 after R22
    EXPECT_EQ(extended.value().designation("shopblend7").value(), "Shop blend 7");
    EXPECT_EQ(extended.value().displayName(parts.value()), "Shop blend 7");
    EXPECT_FALSE(catalogue().designation("Shop blend 7"));
    // The standard assigns it nothing; its GWP is that of its parts by mass: 0.6 x 3 + 0.4 x 3 (AR4 of both,
    // gwp-components.csv).
    const RefrigerantFacts* facts = extended.value().facts("Shop blend 7");
    ASSERT_NE(facts, nullptr);
    EXPECT_TRUE(facts->ownBlend);
    EXPECT_EQ(facts->safetyGroup, "none");
    ASSERT_NE(facts->gwp(GwpSet::ar4), nullptr);
    EXPECT_NEAR(facts->gwp(GwpSet::ar4)->value, 3, 1e-9);
    EXPECT_FALSE(catalogue().withBlend("new", {{"R9999", 0.5}, {"R22", 0.5}}));
    EXPECT_FALSE(catalogue().withBlend("Only propane", {{"R290", 1.0}}));
}

// A name of the standard, one that looks like it or one that means something else is never the shop's.
TEST(Catalogue, AnOwnBlendShadowsNothing) {
    const auto parts = catalogue().contents("R-290:60+R-600a:40");
    ASSERT_TRUE(parts);
    for (const char* name :
         {"r 410a", "R-499Z", "HFC-9", "4-7", "RE999", "R13B1", "unknown", "Propane", "a+b", "a:b", "",
          " spaced", "tab\there", "a name of more than forty characters, as it is"}) {
        const auto refused = catalogue().withBlend(name, parts.value());
        ASSERT_FALSE(refused) << name;
        EXPECT_FALSE(refused.error().right.empty()) << name;
    }
    const auto alike = catalogue().contents("R-32:50.5+R-125:49.5");
    ASSERT_TRUE(alike);
    const auto passing = catalogue().withBlend("Our 410", alike.value());
    ASSERT_FALSE(passing);
    EXPECT_NE(passing.error().wrong.find("R-410A"), std::string::npos);
    // What lies between the two is called by the standard's name.
    const auto own = catalogue().contents("R-32:53+R-125:47");
    const auto between = catalogue().contents("R-32:51.9+R-125:48.1");
    ASSERT_TRUE(own && between);
    const auto extended = catalogue().withBlend("Lean mix", own.value());
    ASSERT_TRUE(extended) << extended.error().text();
    EXPECT_EQ(extended.value().displayName(own.value()), "Lean mix");
    EXPECT_EQ(extended.value().displayName(between.value()), "R-410A");
}
