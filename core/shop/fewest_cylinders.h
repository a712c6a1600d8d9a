#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "core/quantity/mass.h"

namespace tarebook {

/// A cylinder that a plan may take.
struct PlanItem {
    Mass room;             // that it has; none or less: it is never taken
    int rank = 0;          // 0, 1 or 2: what is taken first, as PlanUse has it
    std::int64_t wear = 0; // 0 to 100,000: how much it was used; what was used less is taken first
};

/// The mass by whose whole multiples rooms are compared: 10 g, about what a scale at a counter tells apart
/// (RP-22 of the recovery practice: 0.02 lb), or a thousandth of the target where that is more.
[[nodiscard]] Mass roomStep(Mass target);

/// Chooses cylinders that together have the room, and proves that no other choice is better, in this order:
/// 1. fewest cylinders, to the milligram;
/// 2. the lowest sum of ranks, to the milligram;
/// 3. least room left over, each room cut to whole steps, the target raised to them, so that large empties
///    stay for large jobs; a choice that suffices only by what was cut off counts as worse than any other,
///    and among such the one with the most room to the milligram is best;
/// 4. the lowest sum of wear;
/// 5. the lowest sum of places in `items`, so that the same question has the same answer.
/// What it costs: for n items of which k are needed at most n * k * 1000 sums for each way to make up the
/// lowest sum of ranks (of which there are at most k / 2 + 1), of which the rooms themselves leave a
/// fraction.
class FewestCylinders {
public:
    FewestCylinders(const std::vector<PlanItem>& items, Mass target);
    /// Places in `items`, ascending; empty where all of them together do not suffice, or nothing is needed.
    [[nodiscard]] std::vector<std::size_t> choose();

private:
    static constexpr std::size_t kRanks = 3;
    using Counts = std::array<std::size_t, kRanks>; // how many of each rank
    struct Item {
        std::int64_t room = 0;  // mg
        std::int64_t steps = 0; // of the room, cut
        std::int64_t worth = 0; // wear and place in one number: less is better
        std::size_t place = 0;
    };
    struct Choice {
        bool cutSuffices = false;
        std::int64_t over = 0; // steps left over; where the cut rooms do not suffice, minus the room
        std::int64_t worth = 0;
        std::vector<std::size_t> places;
    };

    /// How many are needed; 0: no number suffices.
    [[nodiscard]] static std::size_t fewest(const std::vector<PlanItem>& items, std::int64_t target);
    /// Every way to make up the lowest sum of ranks.
    [[nodiscard]] std::vector<Counts> lowestRanks() const;
    [[nodiscard]] bool canBring(const Counts& counts) const;
    /// The best choice of so many of each rank.
    [[nodiscard]] Choice bestOf(const Counts& counts) const;
    [[nodiscard]] Choice largestOf(const Counts& counts) const;
    [[nodiscard]] static bool better(const Choice& one, const Choice& other);

    std::array<std::vector<Item>, kRanks> m_items;        // the roomiest first
    std::array<std::vector<std::int64_t>, kRanks> m_sums; // rooms of the first so many, mg
    std::size_t m_number;                                 // of cylinders needed
    std::int64_t m_target;
    std::int64_t m_step;
    std::int64_t m_goal; // the target in steps
};

} // namespace tarebook
