#include "core/cylinder/nameplate.h"

#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck.h>

using namespace tarebook;

// Source: 49 CFR 173.304a(a)(2) note 1: a pound of water at 60 degF is 27.737 cubic inches. 26.2 lb are 726.7
// cubic inches, 11.91 litres; 12.5 litres are 27.50 lb; a litre is 2.2001 lb (arithmetic; the inch is 2.54
// cm).
TEST(WaterCapacity, PoundsAndLitresByTheConstantOfTheLaw) {
    const auto small = WaterCapacity::parse("26.2 lb");
    ASSERT_TRUE(small);
    EXPECT_NEAR(small.value().volume().litres() * 1000 / 16.387064, 726.7, 0.05);
    EXPECT_NEAR(small.value().volume().litres(), 11.91, 0.005);
    const auto metric = WaterCapacity::parse("12.5 l");
    ASSERT_TRUE(metric);
    EXPECT_NEAR(static_cast<double>(metric.value().water().milligrams()) / 453'592.37, 27.50, 0.005);
    const auto litre = WaterCapacity::parse("1 L");
    ASSERT_TRUE(litre);
    EXPECT_NEAR(static_cast<double>(litre.value().water().milligrams()) / 453'592.37, 2.2001, 0.00005);
}

TEST(WaterCapacity, RefusesWhatHoldsNothingOrSaysNothing) {
    for (const char* text : {"", "47.7", "0 lb", "-3 lb", "4000 lb", "lb", "47.7 gal", "abc"}) {
        EXPECT_FALSE(WaterCapacity::parse(text)) << text;
    }
    for (const char* text : {"21.7 litre", "21.7 liters", "21.6 kg", "47 lb 3 oz"}) {
        EXPECT_TRUE(WaterCapacity::parse(text)) << text;
    }
}

// Property: litres come back from the mass of water to well below the three figures that marks show.
TEST(WaterCapacity, LitresComeBack) {
    EXPECT_TRUE(rc::check([] {
        const int tenths = *rc::gen::inRange(1, 13'000);
        const auto read =
            WaterCapacity::parse(std::to_string(tenths / 10) + "." + std::to_string(tenths % 10) + " l");
        RC_ASSERT(read.ok());
        RC_ASSERT(std::abs(read.value().volume().litres() - tenths / 10.0) < 1e-6);
    }));
}

TEST(Owner, SpellingsAreRead) {
    const auto plain = Owner::parse("");
    ASSERT_TRUE(plain);
    EXPECT_EQ(plain.value(), (Owner{OwnerKind::own, ""}));
    for (const char* text :
         {"customer: Ansel Harbor", " Customer:Ansel Harbor ", "CUSTOMER : Ansel Harbor"}) {
        const auto owner = Owner::parse(text);
        ASSERT_TRUE(owner) << text;
        EXPECT_EQ(owner.value(), (Owner{OwnerKind::customer, "Ansel Harbor"})) << text;
        EXPECT_EQ(owner.value().text(), "customer: Ansel Harbor");
    }
    EXPECT_EQ(Owner::parse("rented: Depot 4").value().kind, OwnerKind::rented);
    EXPECT_EQ(Owner::parse("reclaimer").value().kind, OwnerKind::reclaimer);
    EXPECT_EQ(Owner::parse("own: whoever").value().name, "");
    EXPECT_FALSE(Owner::parse("leased: Depot 4"));
    EXPECT_FALSE(Owner::parse("St. Alder"));
}
