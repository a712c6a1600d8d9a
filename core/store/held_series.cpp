#include "core/store/held_series.h"

#include <algorithm>
#include <limits>

#include "core/store/flow_table.h"
#include "core/store/period_sums.h"
#include "core/store/pragmas.h"

namespace tarebook {

namespace {

constexpr const char* kStandingBefore =
    "SELECT l.occurred, l.seq, s.text, t.text, l.moved FROM leg l JOIN subject s ON s.id = l.source "
    "JOIN subject t ON t.id = l.target WHERE l.until_head IS NULL AND l.occurred >= ?1 AND l.occurred < ?2";

struct StandingLeg {
    std::int64_t second = 0;
    Sequence seq = 0;
    BorderCrossing crossing;
    Holding moved;
};

/// Every standing leg of the time that crosses the border of the cylinders, in no order.
template <typename Visit>
void eachAcross(Database& database, std::int64_t from, std::int64_t to, const Visit& visit) {
    Query query(database, kStandingBefore, from, to);
    while (query.step()) {
        const auto source = Account::parse(query.view(2));
        const auto target = Account::parse(query.view(3));
        if (!source || !target) {
            throw SqlFailure(SQLITE_CORRUPT, "a leg cannot be read");
        }
        const auto crossing = crossingOf(source.value(), target.value());
        if (!crossing) {
            continue;
        }
        auto moved = Holding::decode(query.view(4));
        if (!moved) {
            throw SqlFailure(SQLITE_CORRUPT, "what a leg moved cannot be read");
        }
        visit(StandingLeg{query.integer(0), query.integer(1), *crossing, std::move(moved).value()});
    }
}

/// What crossed the border before the first of the moments, and from each to the next.
using Stretches = std::vector<FlowSums>;

Stretches fromKeptSums(Database& database, const std::vector<Instant>& moments) {
    Stretches stretches{flowsBefore(database, moments.front())};
    stretches.reserve(moments.size());
    for (std::size_t place = 1; place < moments.size(); ++place) {
        stretches.push_back(flowsIn(database, moments[place - 1], moments[place]));
    }
    return stretches;
}

Stretches fromLegs(Database& database, const std::vector<Instant>& moments,
                   const std::optional<std::string>& owner) {
    Stretches stretches(moments.size());
    eachAcross(database, std::numeric_limits<std::int64_t>::min(), moments.back().seconds(),
               [&](const StandingLeg& leg) {
                   const auto stretch =
                       std::upper_bound(moments.begin(), moments.end(), Instant::fromSeconds(leg.second)) -
                       moments.begin();
                   FlowSums& sums = stretches[static_cast<std::size_t>(stretch)];
                   for (const auto& [gas, milligrams] : leg.moved.parts()) {
                       if (!owner || gas.owner == *owner) {
                           sums[{gas.refrigerant, leg.crossing.flow}] += leg.crossing.sign * milligrams;
                       }
                   }
               });
    return stretches;
}

bool keptSumsReach(Database& database, const std::vector<Instant>& moments) {
    return userVersionOf(database) >= kFlowVersion &&
           std::all_of(moments.begin(), moments.end(),
                       [](Instant moment) { return moment.seconds() % kQuarterSpan == 0; });
}

Stretches stretchesOf(Database& database, const std::vector<Instant>& moments,
                      const std::optional<std::string>& owner) {
    return !owner && keptSumsReach(database, moments) ? fromKeptSums(database, moments)
                                                      : fromLegs(database, moments, owner);
}

void addFlows(const FlowSums& flows, HeldMasses& held) {
    for (const auto& [key, milligrams] : flows) {
        held[key.first] += signOf(key.second) * milligrams;
    }
}

} // namespace

std::vector<HeldMasses> heldSeries(Database& database, const std::vector<Instant>& moments,
                                   const std::optional<std::string>& owner) {
    std::vector<HeldMasses> series;
    if (moments.empty()) {
        return series;
    }
    series.reserve(moments.size());
    HeldMasses held;
    for (const FlowSums& flows : stretchesOf(database, moments, owner)) {
        addFlows(flows, held);
        series.push_back(held);
    }
    for (HeldMasses& one : series) {
        std::erase_if(one, [](const auto& mass) { return mass.second == 0; });
    }
    return series;
}

std::vector<std::vector<PeriodSum>> periodSeries(Database& database, const std::vector<Instant>& borders,
                                                 const std::optional<std::string>& owner) {
    std::vector<std::vector<PeriodSum>> series;
    if (borders.size() < 2) {
        return series;
    }
    series.reserve(borders.size() - 1);
    const Stretches stretches = stretchesOf(database, borders, owner);
    HeldMasses held;
    addFlows(stretches.front(), held);
    for (std::size_t place = 1; place < stretches.size(); ++place) {
        std::map<std::string, PeriodSum> sums;
        for (const auto& [refrigerant, milligrams] : held) {
            sums[refrigerant].opening = milligrams;
        }
        for (const auto& [key, milligrams] : stretches[place]) {
            sums[key.first].*sumOfFlow(key.second) += milligrams;
        }
        addFlows(stretches[place], held);
        for (const auto& [refrigerant, milligrams] : held) {
            sums[refrigerant].closing = milligrams;
        }
        series.push_back(periodRows(sums));
    }
    return series;
}

std::vector<Sequence> entriesAcross(Database& database, Instant from, Instant to, const GasWanted& gas) {
    std::vector<Sequence> entries;
    eachAcross(database, from.seconds(), to.seconds(), [&](const StandingLeg& leg) {
        const auto& parts = leg.moved.parts();
        const bool wanted = std::any_of(parts.begin(), parts.end(), [&](const auto& part) {
            return (gas.refrigerant.empty() || part.first.refrigerant == gas.refrigerant) &&
                   (!gas.owner || part.first.owner == *gas.owner);
        });
        if (wanted) {
            entries.push_back(leg.seq);
        }
    });
    std::sort(entries.begin(), entries.end());
    entries.erase(std::unique(entries.begin(), entries.end()), entries.end());
    return entries;
}

} // namespace tarebook
