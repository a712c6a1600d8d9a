#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "core/quantity/mass.h"

namespace tarebook {

/// Jobs that may share cylinders: of one technician, and of gas that may go together.
struct DayNeed {
    std::vector<Mass> jobs; // room that each needs, or gas to charge; above zero
};

/// What a cylinder could do for one of the needs.
struct DayOffer {
    std::size_t need = 0; // place of the need
    Mass room;            // none or less: it is never taken
    int rank = 0;         // 0, 1 or 2, as PlanItem has it
};

struct DayCylinder {
    std::vector<DayOffer> offers; // at most one a need, by the place of the need
    std::int64_t wear = 0;        // as PlanItem has it
};

struct DayChoice {
    struct Part {
        std::vector<std::size_t> cylinders; // places, ascending
        std::vector<std::size_t> left;      // places of the jobs that are not served, ascending
    };
    std::vector<Part> parts; // one a need
    bool proved = true;      // that no choice is better; otherwise the best that was found
    std::size_t nodes = 0;   // that were looked at
};

/// Questions that are looked at before the search gives what it has found.
inline constexpr std::size_t kMostDayNodes = 2'000;

/// Gives every cylinder to one need at most, so that no other choice is better, in this order:
/// 1. fewest jobs that are not served; of jobs that share, the largest is left first, of equal ones the last;
/// 2. fewest cylinders of all needs together;
/// 3. the lowest sum of ranks;
/// 4. fewest needs that are met only by what is cut off each room, then least room left over, both as
///    FewestCylinders has them for one need.
/// Among cylinders that are alike for every need the least worn goes first, then the first of the list; one
/// need alone gets what FewestCylinders chooses.
///
/// How: cylinders that offer the same to every need are one kind. Each need's best choice, as if it were
/// alone, is a bound from below, as costs add up. Where needs together ask for more of a kind than there is,
/// at least one of them gets fewer of it than in its best choice: one branch for each. The branch of the
/// lowest bound is looked at first, so that the first in which all get what they ask for is the best. Needs
/// that share no kind are searched apart, each with `mostNodes` of its own. The same question has the same
/// answer.
[[nodiscard]] DayChoice chooseForDay(const std::vector<DayNeed>& needs,
                                     const std::vector<DayCylinder>& cylinders,
                                     std::size_t mostNodes = kMostDayNodes);

} // namespace tarebook
