#include "core/store/held_series.h"

#include <algorithm>
#include <limits>

#include "core/store/flow_table.h"
#include "core/store/pragmas.h"

namespace tarebook {

namespace {

constexpr const char* kStandingBefore =
    "SELECT l.occurred, l.seq, s.text, t.text, l.moved FROM leg l JOIN subject s ON s.id = l.source "
    "JOIN subject t ON t.id = l.target WHERE l.until_head IS NULL AND l.occurred >= ?1 AND l.occurred < ?2";

struct StandingLeg {
    std::int64_t second = 0;
    Sequence seq = 0;
    int sign = 1; // 1: into the cylinders
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
        if ((source.value().kind == AccountKind::cylinder) ==
            (target.value().kind == AccountKind::cylinder)) {
            continue;
        }
        auto moved = Holding::decode(query.view(4));
        if (!moved) {
            throw SqlFailure(SQLITE_CORRUPT, "what a leg moved cannot be read");
        }
        visit(StandingLeg{query.integer(0), query.integer(1),
                          target.value().kind == AccountKind::cylinder ? 1 : -1, std::move(moved).value()});
    }
}

void addFlows(const FlowSums& flows, HeldMasses& held) {
    for (const auto& [key, milligrams] : flows) {
        held[key.first] += signOf(key.second) * milligrams;
    }
}

std::vector<HeldMasses> fromKeptSums(Database& database, const std::vector<Instant>& moments) {
    std::vector<HeldMasses> series;
    series.reserve(moments.size());
    HeldMasses held;
    for (const Instant moment : moments) {
        addFlows(series.empty() ? flowsBefore(database, moment)
                                : flowsIn(database, moments[series.size() - 1], moment),
                 held);
        series.push_back(held);
    }
    return series;
}

std::vector<HeldMasses> fromLegs(Database& database, const std::vector<Instant>& moments,
                                 const std::optional<std::string>& owner) {
    // First what changed in each stretch, then the sums over the stretches.
    std::vector<HeldMasses> series(moments.size());
    eachAcross(database, std::numeric_limits<std::int64_t>::min(), moments.back().seconds(),
               [&](const StandingLeg& leg) {
                   const auto stretch =
                       std::upper_bound(moments.begin(), moments.end(), Instant::fromSeconds(leg.second)) -
                       moments.begin();
                   for (const auto& [gas, milligrams] : leg.moved.parts()) {
                       if (!owner || gas.owner == *owner) {
                           series[static_cast<std::size_t>(stretch)][gas.refrigerant] +=
                               leg.sign * milligrams;
                       }
                   }
               });
    for (std::size_t place = 1; place < series.size(); ++place) {
        for (const auto& [refrigerant, milligrams] : series[place - 1]) {
            series[place][refrigerant] += milligrams;
        }
    }
    return series;
}

bool keptSumsReach(Database& database, const std::vector<Instant>& moments) {
    return userVersionOf(database) >= kFlowVersion &&
           std::all_of(moments.begin(), moments.end(),
                       [](Instant moment) { return moment.seconds() % kQuarterSpan == 0; });
}

} // namespace

std::vector<HeldMasses> heldSeries(Database& database, const std::vector<Instant>& moments,
                                   const std::optional<std::string>& owner) {
    if (moments.empty()) {
        return {};
    }
    auto series = !owner && keptSumsReach(database, moments) ? fromKeptSums(database, moments)
                                                             : fromLegs(database, moments, owner);
    for (HeldMasses& held : series) {
        std::erase_if(held, [](const auto& one) { return one.second == 0; });
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
