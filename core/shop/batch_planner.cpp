#include "core/shop/batch_planner.h"

#include <algorithm>
#include <map>
#include <queue>
#include <tuple>

namespace tarebook {

namespace {

using Alike = std::vector<const Packable*>;

std::int64_t netOf(const Alike& lot) {
    std::int64_t sum = 0;
    for (const Packable* one : lot) {
        sum += one->net.milligrams();
    }
    return sum;
}

/// What the next cylinder of a lot adds to a batch.
struct Addition {
    std::int64_t milligrams = 0;
    std::size_t lot = 0;
    const Packable* cylinder = nullptr;
    /// Less urgent than the other.
    bool operator<(const Addition& other) const {
        return std::tie(milligrams, other.cylinder->serial) < std::tie(other.milligrams, cylinder->serial);
    }
};

/// Fills the first `count` of a lot, roomiest first, out of the others, the smallest of them first, so that
/// as many as can be are emptied.
void addDecants(const Alike& lot, std::size_t count, std::vector<PlannedDecant>& decants) {
    Alike sources(lot.begin() + static_cast<std::ptrdiff_t>(count), lot.end());
    std::stable_sort(sources.begin(), sources.end(),
                     [](const Packable* one, const Packable* other) { return one->net < other->net; });
    std::size_t source = 0;
    std::int64_t left = sources.empty() ? 0 : sources.front()->net.milligrams();
    for (std::size_t target = 0; target < count; ++target) {
        std::int64_t room = lot[target]->holds.milligrams() - lot[target]->net.milligrams();
        while (room > 0 && source < sources.size()) {
            const std::int64_t moved = std::min(room, left);
            decants.push_back({sources[source]->serial, lot[target]->serial, Mass::fromMilligrams(moved)});
            room -= moved;
            left -= moved;
            if (left == 0 && ++source < sources.size()) {
                left = sources[source]->net.milligrams();
            }
        }
    }
}

} // namespace

BatchPlanner::BatchPlanner(std::vector<Packable> cylinders) : m_cylinders(std::move(cylinders)) {
    for (Packable& one : m_cylinders) {
        one.holds = std::max(one.holds, one.net);
    }
}

BatchPlan BatchPlanner::asTheyStand(std::size_t most) const {
    std::vector<Packable> unmixed = m_cylinders;
    for (Packable& one : unmixed) {
        one.holds = one.net;
    }
    std::vector<Alike> lots;
    lots.reserve(unmixed.size());
    for (const Packable& one : unmixed) {
        lots.push_back({&one});
    }
    return plan(lots, most);
}

BatchPlan BatchPlanner::consolidated(std::size_t most) const {
    std::map<std::string, Alike> byLot;
    std::vector<Alike> lots;
    for (const Packable& one : m_cylinders) {
        if (one.lot.empty()) {
            lots.push_back({&one});
        } else {
            byLot[one.lot].push_back(&one);
        }
    }
    for (auto& [name, lot] : byLot) {
        std::sort(lot.begin(), lot.end(), [](const Packable* one, const Packable* other) {
            return std::tie(other->holds, other->net, one->serial) <
                   std::tie(one->holds, one->net, other->serial);
        });
        lots.push_back(std::move(lot));
    }
    return plan(lots, most);
}

BatchPlan BatchPlanner::plan(const std::vector<std::vector<const Packable*>>& lots, std::size_t most) const {
    std::vector<std::int64_t> left; // of each lot, not in the batch yet
    std::vector<std::size_t> taken(lots.size(), 0);
    std::priority_queue<Addition> next;
    const auto offer = [&](std::size_t lot) {
        if (taken[lot] < lots[lot].size() && left[lot] > 0) {
            const Packable* cylinder = lots[lot][taken[lot]];
            next.push({std::min(left[lot], cylinder->holds.milligrams()), lot, cylinder});
        }
    };
    for (std::size_t lot = 0; lot < lots.size(); ++lot) {
        left.push_back(netOf(lots[lot]));
        offer(lot);
    }
    BatchPlan plan;
    std::int64_t net = 0;
    std::int64_t tare = 0;
    while (!next.empty() && (most == 0 || plan.serials.size() < most)) {
        const Addition best = next.top();
        next.pop();
        plan.serials.push_back(best.cylinder->serial);
        net += best.milligrams;
        tare += best.cylinder->tare.milligrams();
        left[best.lot] -= best.milligrams;
        ++taken[best.lot];
        offer(best.lot);
    }
    for (std::size_t lot = 0; lot < lots.size(); ++lot) {
        if (taken[lot] > 0) {
            addDecants(lots[lot], taken[lot], plan.decants);
        }
    }
    std::sort(plan.serials.begin(), plan.serials.end());
    plan.net = Mass::fromMilligrams(net);
    plan.gross = Mass::fromMilligrams(net + tare);
    return plan;
}

} // namespace tarebook
