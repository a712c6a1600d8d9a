#pragma once

#include <cstdint>
#include <vector>

#include "tests/faults/injector.h"
#include "tests/faults/work.h"

namespace tarebook::tests {

/// How much of a sweep is done: TAREBOOK_FAULT_POINTS (a number, or `all`) of the points of each fault and
/// each piece of work, evenly spread from a place drawn by TAREBOOK_FAULT_SEED (by the clock when not given).
struct Measure {
    std::int64_t points = 0; // 0: all
    std::uint64_t seed = 0;
    std::size_t share = 1; // only one piece of work in so many (TAREBOOK_FAULT_SHARE), drawn by the seed
    /// As the environment says; `few` points where it says nothing.
    [[nodiscard]] static Measure fromEnvironment(std::int64_t few);
};

struct Swept {
    std::int64_t calls = 0;  // points that there are, once only and from then on
    std::int64_t points = 0; // those that were swept
    std::int64_t done = 0;
    std::int64_t notDone = 0;
    std::int64_t unknown = 0;
    std::int64_t losses = 0; // points where something was wrong
    Swept& operator+=(const Swept& other);
};

/// Does each piece of work again and again on a fresh copy, each fault one call later each time, once only
/// and from then on. Each time, also on the disk as the power would leave it then: what was answered `done`
/// is there, what was answered `not done` is not, `unknown` is settled by asking again; chain, balances and
/// views agree; the next append of another program and of the same works. Adds a failure for each point
/// where that does not hold, and prints what was swept.
Swept sweep(const std::vector<Work>& works, const std::vector<Fault>& faults, const Measure& measure);

} // namespace tarebook::tests
