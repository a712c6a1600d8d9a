#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <vector>

#include "core/quantity/mass.h"

namespace tarebook {

/// A cylinder that may go, as the planner sees it.
struct Packable {
    std::string serial;
    std::string lot; // those of one lot may be decanted into each other; empty: into none
    Mass net;        // inside, above zero
    Mass tare;
    Mass holds; // net that it may hold once it is topped up; what is inside where nothing may be put in
};

/// A clean empty that may be filled out of others.
struct Spare {
    std::string serial;
    Mass tare;
    std::map<std::string, Mass> holds; // by lot, of those that it suits
};

struct PlannedDecant {
    std::string from;
    std::string to;
    Mass mass;
    bool operator==(const PlannedDecant&) const = default;
};

struct BatchPlan {
    std::vector<std::string> serials;   // that go, by name
    std::vector<PlannedDecant> decants; // first, in this order
    Mass net;
    Mass gross;
};

/// Chooses what goes. The best batch is the one with which most refrigerant leaves the shop, to the
/// milligram, and of those the one with the fewest cylinders. Where several are as good: of a lot those that
/// may hold most, then those that hold most already, then by name; of several lots the one that adds most
/// with the next cylinder, then by name.
///
/// It is found exactly. What n cylinders of a lot can carry is all that the lot has or all that the n
/// roomiest may hold, whichever is less; each further one adds no more than the one before it, so that taking
/// the largest addition each time is best for any number of cylinders.
///
/// A spare is filled only where more leaves with it or fewer cylinders go; of the ways that are as good, the
/// one with the fewest spares. For one lot that is exact as well. Where several lots want the same spares,
/// the lot that gains most by them chooses first, which need not be the best of all.
class BatchPlanner {
public:
    explicit BatchPlanner(std::vector<Packable> cylinders, std::vector<Spare> spares = {});
    /// At most so many cylinders, 0 for any number; as they stand, with no decant.
    [[nodiscard]] BatchPlan asTheyStand(std::size_t most) const;
    /// The same after decants within each lot. A decant leaves its target at or below what it may hold.
    [[nodiscard]] BatchPlan consolidated(std::size_t most) const;

private:
    [[nodiscard]] BatchPlan plan(const std::vector<std::vector<const Packable*>>& lots,
                                 std::size_t most) const;

    std::vector<Packable> m_cylinders;
    std::vector<Spare> m_spares;
};

} // namespace tarebook
