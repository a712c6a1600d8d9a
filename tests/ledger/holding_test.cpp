#include "core/ledger/holding.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

using namespace tarebook;

namespace {

Holding randomHolding() {
    Holding holding;
    const auto count = *rc::gen::inRange(0, 7);
    for (int part = 0; part < count; ++part) {
        const Gas gas{*rc::gen::elementOf(std::vector<std::string>{"R-22", "R-410A", "a|b;c\\", ""}),
                      *rc::gen::elementOf(std::vector<std::string>{"", "Ansel; Harbor", "|", "\\"}),
                      *rc::gen::element(GasState::unused, GasState::recovered, GasState::reclaimed)};
        holding.add(gas, *rc::gen::oneOf(rc::gen::inRange<std::int64_t>(1, 9),
                                         rc::gen::inRange<std::int64_t>(1, 1'000'000'000'000)));
    }
    return holding;
}

} // namespace

// Largest remainder: the parts sum exactly, each within one milligram of its share, none more than there is.
TEST(Holding, PortionsSumExactlyAndNeverOverdraw) {
    EXPECT_TRUE(rc::check("portion", [] {
        const Holding whole = randomHolding();
        const std::int64_t total = whole.total().milligrams();
        const auto mass = *rc::gen::inRange<std::int64_t>(0, total + 1);
        const Holding taken = whole.portion(Mass::fromMilligrams(mass));
        RC_ASSERT(taken.total().milligrams() == mass);
        for (const auto& [gas, milligrams] : taken.parts()) {
            const auto inside = whole.parts().at(gas);
            RC_ASSERT(milligrams > 0 && milligrams <= inside);
            const long double share = static_cast<long double>(inside) * static_cast<long double>(mass) /
                                      static_cast<long double>(total);
            RC_ASSERT(std::abs(static_cast<long double>(milligrams) - share) < 1.0001L);
        }
        Holding left = whole;
        left.subtract(taken);
        left.add(taken);
        RC_ASSERT((left == whole));
    }));
}

TEST(Holding, PortionBeyondTheContentKeepsTheProportions) {
    Holding whole(Gas{"R-22", "", GasState::unused}, Mass::fromMilligrams(1));
    whole.add(Gas{"R-410A", "", GasState::unused}, 2);
    const Holding more = whole.portion(Mass::fromMilligrams(9'000'000));
    EXPECT_EQ(more.byRefrigerant(),
              (std::map<std::string, std::int64_t>{{"R-22", 3'000'000}, {"R-410A", 6'000'000}}));
    EXPECT_TRUE(Holding().portion(Mass::fromMilligrams(5)).empty());
}

TEST(Holding, ReadsBackWhatItWrote) {
    EXPECT_TRUE(rc::check("encoded", [] {
        const Holding holding = randomHolding();
        const auto read = Holding::decode(holding.encoded());
        RC_ASSERT(read.ok());
        RC_ASSERT((read.value() == holding));
    }));
    for (const char* damaged : {"R-22", "R-22||new|", "R-22||new|1;", "R-22||old|1", "R-22||new|1x",
                                "R-22||new|0", "R-22||new|99999999999999999999", "R-22||new|1;R-22||new|2"}) {
        EXPECT_FALSE(Holding::decode(damaged)) << damaged;
    }
}
