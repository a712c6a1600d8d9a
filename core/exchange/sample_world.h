#pragma once

#include <string>
#include <vector>

#include "core/exchange/sample_random.h"
#include "core/exchange/sample_shop.h"
#include "core/shop/machines.h"
#include "core/shop/register.h"

namespace tarebook {

/// Masses of the sample are whole tenths of a pound, as a shop's scale shows them.
[[nodiscard]] Mass tenthsOfPound(int tenths);

/// Between two tests of a cylinder of the sample.
inline constexpr int kSampleTestMonths = 60;

/// A kind of cylinder of the sample, with round figures of common sizes.
struct SampleModel {
    std::string specification;
    int capacityTenths = 0; // of water
    int tareTenths = 0;
};

/// A cylinder as the generator knows it. What the books say of it the books decide.
struct SampleUnit {
    std::string serial;
    SampleModel model;
    MonthYear made = MonthYear::of(2020, 1).value();
    MonthYear due = MonthYear::of(2025, 1).value();
    int tests = 0;           // of a kept unit, on time, after the books began
    std::string refrigerant; // inside; empty: clean empty
    std::string owner;       // of the gas
    int netTenths = 0;
    int limitTenths = 0; // for what is inside
    bool supply = false; // of new gas
    bool busy = false;   // out, away, or kept for something that goes wrong
    bool gone = false;
    int lastUsed = 0; // day number
};

/// Everybody and everything around the invented shop.
struct SampleWorld {
    std::vector<Person> technicians;
    std::vector<System> systems;
    std::vector<Party> suppliers;
    std::vector<Party> reclaimers;
    std::vector<Machine> machines; // the last is for what goes wrong
    std::vector<SampleUnit> units;
    std::size_t kept = 0; // the first so many units are for what goes wrong
};

/// `sets` of things that go wrong take kSampleKept units each.
inline constexpr std::size_t kSampleKept = 14;

[[nodiscard]] SampleWorld makeSampleWorld(const SampleOptions& options, Date firstDay, std::size_t sets,
                                          SampleRandom& random);
/// The register's entry of a unit.
[[nodiscard]] NewCylinder sampleCylinder(const SampleUnit& unit, Instant occurred);

} // namespace tarebook
