#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <map>
#include <memory>
#include <utility>
#include <vector>

#include "core/shop/day_search.h"

namespace tarebook {

/// Jobs left, cylinders, ranks, needs met only by what was cut off, room left over: compared in this order,
/// and added up place by place, which keeps the order.
using DayCost = std::array<std::int64_t, 5>;
[[nodiscard]] DayCost operator+(const DayCost& one, const DayCost& other);
[[nodiscard]] DayCost operator-(const DayCost& one, const DayCost& other);

/// The best that one need can get.
struct DayPart {
    DayCost cost{};
    std::size_t left = 0;                                    // jobs that are not served
    std::vector<std::pair<std::size_t, std::size_t>> counts; // kind, how many of it; by kind
};
/// How many of a kind a need may get at most; kinds that are not named: all there are.
using DayCaps = std::map<std::size_t, std::size_t>;

/// Cylinders by kind: alike for every need.
class DayKinds {
public:
    DayKinds(const std::vector<DayNeed>& needs, const std::vector<DayCylinder>& cylinders);

    /// Places of the cylinders of a kind, the least worn first.
    [[nodiscard]] const std::vector<std::size_t>& members(std::size_t kind) const { return m_members[kind]; }
    [[nodiscard]] std::size_t count() const { return m_members.size(); }
    /// Needs in sets, by their first; needs of different sets share no kind.
    [[nodiscard]] std::vector<std::vector<std::size_t>> apart() const;
    /// The best for one need within its caps, as if it were alone.
    [[nodiscard]] DayPart best(std::size_t need, const DayCaps& caps) const;
    /// Places of the jobs of a need that are left when so many are, ascending.
    [[nodiscard]] std::vector<std::size_t> leftOf(std::size_t need, std::size_t left) const;

private:
    struct Offer {
        std::size_t kind;
        std::int64_t room; // mg
        int rank;
    };
    [[nodiscard]] DayPart choose(std::size_t need, const DayCaps& caps, std::int64_t target) const;

    const std::vector<DayCylinder>& m_cylinders;
    std::vector<std::vector<std::size_t>> m_members;    // by kind
    std::vector<std::vector<Offer>> m_offers;           // by need; the roomiest first
    std::vector<std::vector<std::size_t>> m_smallFirst; // by need: places of its jobs
    std::vector<std::vector<std::int64_t>> m_sums;      // by need: of its first so many jobs, mg
};

} // namespace tarebook
