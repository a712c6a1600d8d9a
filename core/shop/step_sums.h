#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace tarebook {

/// Of one group of cylinders a fixed number is taken.
struct StepGroup {
    struct Item {
        std::int64_t steps = 0; // what it brings, above zero
        std::int64_t worth = 0; // less is better, above or equal to zero
        std::size_t place = 0;
    };
    std::vector<Item> items; // what brings most first, of equal ones the best worth first
    std::size_t taken = 0;   // at most all
};

struct StepChoice {
    std::int64_t steps = 0; // that it brings
    std::int64_t worth = 0;
    std::vector<std::size_t> places;
};

/// Of every choice that takes so many of each group and brings at least `goal` the one that brings least;
/// among those the one of the lowest sum of worth. Exact: every sum that can still reach the goal is
/// followed, each by its best worth. The goal must be within reach of the first items of each group.
[[nodiscard]] StepChoice leastSum(const std::vector<StepGroup>& groups, std::int64_t goal);

} // namespace tarebook
