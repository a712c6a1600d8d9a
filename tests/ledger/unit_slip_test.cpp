// A pound is 0.45359237 kg exactly, an ounce a sixteenth of it (NIST Handbook 44, Appendix C).
#include "core/ledger/unit_slip.h"

#include <gtest/gtest.h>

#include "core/quantity/mass.h"

using namespace tarebook;

namespace {

std::int64_t mg(const char* text) {
    return Mass::parse(text).value().milligrams();
}

} // namespace

TEST(UnitSlip, PoundsForKilogramsAndTheReverse) {
    EXPECT_EQ(withoutSlip(mg("10 lb"), UnitSlip::kilogramsAsPounds), mg("10 kg"));
    EXPECT_EQ(withoutSlip(mg("12.375 lb"), UnitSlip::kilogramsAsPounds), mg("12.375 kg"));
    EXPECT_EQ(withoutSlip(mg("12 kg"), UnitSlip::poundsAsKilograms), mg("12 lb"));
    // More decimals than anybody types: 1.234567 kg are 2.72175...; as a plain factor of 2.20462262.
    EXPECT_EQ(withoutSlip(1'234'567, UnitSlip::kilogramsAsPounds), 2'721'754);
}

TEST(UnitSlip, OuncesAsDecimals) {
    EXPECT_EQ(withoutSlip(mg("61.4 lb"), UnitSlip::ouncesAsTenths), mg("61 lb 4 oz"));
    EXPECT_EQ(withoutSlip(mg("61.14 lb"), UnitSlip::ouncesAsHundredths), mg("61 lb 14 oz"));
    EXPECT_EQ(withoutSlip(mg("61.10 lb"), UnitSlip::ouncesAsHundredths), mg("61 lb 10 oz"));
    // No ounces: none, sixteen or more of them, a third decimal, kilograms.
    for (const char* none : {"61 lb", "61.16 lb", "61.75 lb", "61.125 lb", "5 kg"}) {
        EXPECT_FALSE(withoutSlip(mg(none), UnitSlip::ouncesAsHundredths)) << none;
        EXPECT_FALSE(withoutSlip(mg(none), UnitSlip::ouncesAsTenths)) << none;
    }
}
