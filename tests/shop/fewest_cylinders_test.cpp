// The choice of cylinders is proved best: against every subset of random fleets, by an order that is written
// down once more here, and against fleets made to mislead a greedy choice. The order is our own (the header
// says it); nothing outside states one.
#include "core/shop/fewest_cylinders.h"

#include <chrono>
#include <optional>
#include <tuple>

#include <gtest/gtest.h>
#include <rapidcheck.h>

using namespace tarebook;

namespace {

/// Smaller is better: number, ranks, only by what was cut, left over, wear, places.
using Worth = std::tuple<std::size_t, int, bool, std::int64_t, std::int64_t, std::size_t>;

std::optional<Worth> worthOf(const std::vector<PlanItem>& items, const std::vector<std::size_t>& chosen,
                             std::int64_t target) {
    const std::int64_t step = std::max<std::int64_t>(10'000, (target + 999) / 1'000);
    const std::int64_t goal = (target + step - 1) / step;
    std::int64_t sum = 0;
    std::int64_t steps = 0;
    std::int64_t wear = 0;
    std::size_t places = 0;
    int ranks = 0;
    for (const std::size_t place : chosen) {
        const PlanItem& item = items[place];
        if (item.room.milligrams() <= 0) {
            return {};
        }
        sum += item.room.milligrams();
        steps += item.room.milligrams() / step;
        ranks += item.rank;
        wear += item.wear;
        places += place;
    }
    if (sum < target) {
        return {};
    }
    const bool cut = steps < goal;
    return Worth{chosen.size(), ranks, cut, cut ? -sum : steps - goal, wear, places};
}

std::optional<Worth> bestOfAll(const std::vector<PlanItem>& items, std::int64_t target) {
    std::optional<Worth> best;
    for (std::size_t set = 1; set < (std::size_t{1} << items.size()); ++set) {
        std::vector<std::size_t> chosen;
        for (std::size_t place = 0; place < items.size(); ++place) {
            if ((set >> place) % 2 == 1) {
                chosen.push_back(place);
            }
        }
        const auto worth = worthOf(items, chosen, target);
        if (worth && (!best || *worth < *best)) {
            best = worth;
        }
    }
    return best;
}

PlanItem item(std::int64_t grams, int rank = 0, std::int64_t wear = 0) {
    return {Mass::fromMilligrams(grams * 1'000), rank, wear};
}

std::vector<std::size_t> choice(const std::vector<PlanItem>& items, std::int64_t grams) {
    return FewestCylinders(items, Mass::fromMilligrams(grams * 1'000)).choose();
}

/// A fleet of many rooms that differ, from a fixed sequence.
std::vector<PlanItem> manyRooms(std::size_t number, std::int64_t least, std::int64_t most) {
    std::vector<PlanItem> items;
    std::uint64_t seed = 88'172'645'463'325'252U;
    for (std::size_t place = 0; place < number; ++place) {
        seed ^= seed << 13U;
        seed ^= seed >> 7U;
        seed ^= seed << 17U;
        items.push_back(
            {Mass::fromMilligrams(least +
                                  static_cast<std::int64_t>(seed % static_cast<std::uint64_t>(most - least))),
             static_cast<int>(seed >> 60U) % 3, static_cast<std::int64_t>((seed >> 40U) % 20'000)});
    }
    return items;
}

void againstEverySubset() {
    // Coarse and fine rooms, so that ties, near misses and what is cut off all come up.
    const auto grain = *rc::gen::element<std::int64_t>(1, 999, 5'000, 10'000, 1'000'000);
    const auto most = *rc::gen::element<std::int64_t>(3, 20, 2'000);
    const auto items =
        *rc::gen::resize(12, rc::gen::container<std::vector<PlanItem>>(rc::gen::apply(
                                 [grain](std::int64_t room, int rank, std::int64_t wear) {
                                     return PlanItem{Mass::fromMilligrams(room * grain), rank, wear};
                                 },
                                 rc::gen::inRange<std::int64_t>(0, most + 1), rc::gen::inRange(0, 3),
                                 rc::gen::inRange<std::int64_t>(0, 4))));
    RC_PRE(items.size() <= 12U);
    const std::int64_t target = *rc::gen::inRange<std::int64_t>(1, most * 4 + 1) * grain -
                                *rc::gen::element<std::int64_t>(0, grain / 2);
    RC_PRE(target > 0);
    const auto chosen = FewestCylinders(items, Mass::fromMilligrams(target)).choose();
    const auto best = bestOfAll(items, target);
    if (!best) {
        RC_ASSERT(chosen.empty());
        return;
    }
    const auto worth = worthOf(items, chosen, target);
    RC_ASSERT(worth.has_value());
    RC_ASSERT(*worth == *best);
    RC_CLASSIFY(chosen.size() > 2, "three and more");
    RC_CLASSIFY(std::get<2>(*best), "only by what was cut off");
}

} // namespace

TEST(FewestCylinders, NoSubsetIsBetter) {
    EXPECT_TRUE(rc::check("no subset is better", againstEverySubset));
}

TEST(FewestCylinders, TheSumOfRanksGoesBeforeTheFirstRank) {
    // Taking the lowest rank first would end with 0 + 2; two of rank 1 are no worse, and leave less over.
    const std::vector<PlanItem> items{item(6'000, 0), item(9'900, 2), item(7'600, 1), item(7'500, 1)};
    EXPECT_EQ(choice(items, 15'000), (std::vector<std::size_t>{2, 3}));
}

TEST(FewestCylinders, TheSmallestFirstIsNotTheLeastLeftOver) {
    // A greedy choice takes 5,000 first, the smallest that can be completed, and ends with 5,000 + 9,000.
    const std::vector<PlanItem> items{item(5'000), item(9'000), item(6'100), item(6'000)};
    EXPECT_EQ(choice(items, 12'000), (std::vector<std::size_t>{2, 3}));
}

TEST(FewestCylinders, EvenWearDecidesAmongEquals) {
    EXPECT_EQ(choice({item(10'000, 0, 9), item(10'000, 0, 4), item(10'004, 0, 5)}, 9'000),
              std::vector<std::size_t>{1});
    EXPECT_EQ(choice({item(10'000), item(10'000)}, 9'000), std::vector<std::size_t>{0});
}

TEST(FewestCylinders, WhatSufficesToTheMilligramSuffices) {
    const Mass room = Mass::fromMilligrams(7'259'999);
    const Mass both = Mass::fromMilligrams(2 * 7'259'999);
    EXPECT_EQ(FewestCylinders({{room}, {room}, {room}}, both).choose().size(), 2U);
    EXPECT_EQ(FewestCylinders({{room}, {room}}, Mass::fromMilligrams(both.milligrams() + 1)).choose().size(),
              0U);
    EXPECT_TRUE(FewestCylinders({}, both).choose().empty());
    EXPECT_TRUE(FewestCylinders({{room}}, Mass()).choose().empty());
}

TEST(FewestCylinders, ALargeFleetIsAnsweredAtOnceAndExactly) {
    // With so many rooms some sum meets the target to the step; the time is far above what it takes (see
    // docs/benchmarks.md), and far below what trying subsets would.
    for (std::int64_t needed = 1; needed <= 8; ++needed) {
        const auto items = manyRooms(5'000, 9'000'000, 20'000'000);
        const Mass target =
            Mass::fromMilligrams(needed == 1 ? 12'000'000 : (needed - 1) * 20'000'000 + 500'000);
        const auto begun = std::chrono::steady_clock::now();
        const auto chosen = FewestCylinders(items, target).choose();
        EXPECT_LT(std::chrono::steady_clock::now() - begun, std::chrono::seconds(2));
        ASSERT_EQ(chosen.size(), static_cast<std::size_t>(needed));
        const auto worth = worthOf(items, chosen, target.milligrams());
        ASSERT_TRUE(worth);
        EXPECT_FALSE(std::get<2>(*worth));
    }
}
