#include "core/shop/batch_planner.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <memory>
#include <queue>
#include <set>
#include <tuple>
#include <utility>

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
    Alike sources;
    std::copy_if(lot.begin() + static_cast<std::ptrdiff_t>(count), lot.end(), std::back_inserter(sources),
                 [](const Packable* one) { return one->net > Mass(); });
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

bool roomierFirst(const Packable* one, const Packable* other) {
    return std::tie(other->holds, other->net, one->serial) < std::tie(one->holds, one->net, other->serial);
}

/// What leaves with a lot, and in how many cylinders; better: more, then fewer.
using LotWorth = std::pair<std::int64_t, std::int64_t>;

/// Of a lot in the order of roomierFirst(): at most so many cylinders, 0 for any number.
LotWorth worthOf(const Alike& lot, std::size_t most) {
    const std::int64_t all = netOf(lot);
    std::int64_t carried = 0;
    std::size_t count = 0;
    while (carried < all && count < lot.size() && (most == 0 || count < most)) {
        carried = std::min(all, carried + lot[count]->holds.milligrams());
        ++count;
    }
    return {carried, -static_cast<std::int64_t>(count)};
}

/// Which spares a lot would fill.
struct Wish {
    LotWorth gain;
    std::vector<std::size_t> spares;
    /// Most refrigerant, then most cylinders that stay, then the fewest spares.
    [[nodiscard]] auto rank() const {
        return std::tuple(gain.first, gain.second, -static_cast<std::int64_t>(spares.size()));
    }
};

/// The spares as cylinders of a lot, for as long as the plan is made.
class SpareChooser {
public:
    SpareChooser(const std::vector<Spare>& spares, std::map<std::string, Alike>& lots, std::size_t most)
        : m_spares(spares), m_lots(lots), m_most(most), m_taken(spares.size(), false) {}

    /// Puts each spare that is filled into its lot.
    void choose() {
        for (;;) {
            const std::string* best = nullptr;
            Wish wish;
            for (const auto& [name, lot] : m_lots) {
                if (m_served.contains(name)) {
                    continue;
                }
                Wish its = wishOf(name, lot);
                if (!its.spares.empty() && (best == nullptr || its.rank() > wish.rank())) {
                    best = &name;
                    wish = std::move(its);
                }
            }
            if (best == nullptr) {
                return;
            }
            Alike& lot = m_lots[*best];
            for (const std::size_t place : wish.spares) {
                m_taken[place] = true;
                insert(lot, cylinderOf(place, *best));
            }
            m_served.insert(*best);
        }
    }

private:
    const Packable* cylinderOf(std::size_t place, const std::string& lot) {
        auto& made = m_made[{place, lot}];
        if (!made) {
            const Spare& spare = m_spares[place];
            made = std::make_unique<Packable>(
                Packable{spare.serial, lot, Mass(), spare.tare, spare.holds.at(lot)});
        }
        return made.get();
    }

    static void insert(Alike& lot, const Packable* cylinder) {
        lot.insert(std::upper_bound(lot.begin(), lot.end(), cylinder, roomierFirst), cylinder);
    }

    /// The roomiest that suit the lot, one by one: of as many spares no others carry more.
    Wish wishOf(const std::string& name, const Alike& lot) {
        std::vector<std::size_t> places;
        for (std::size_t place = 0; place < m_spares.size(); ++place) {
            if (!m_taken[place] && m_spares[place].holds.contains(name)) {
                places.push_back(place);
            }
        }
        std::sort(places.begin(), places.end(), [&](std::size_t one, std::size_t other) {
            return roomierFirst(cylinderOf(one, name), cylinderOf(other, name));
        });
        const LotWorth before = worthOf(lot, m_most);
        Wish best;
        best.gain = {0, 0};
        Wish tried;
        Alike together = lot;
        for (const std::size_t place : places) {
            if (tried.spares.size() + 1 >= lot.size() && tried.spares.size() > 0) {
                break; // as many spares as cylinders free nothing
            }
            insert(together, cylinderOf(place, name));
            tried.spares.push_back(place);
            const LotWorth now = worthOf(together, m_most);
            tried.gain = {now.first - before.first, now.second - before.second};
            if (tried.gain > best.gain) {
                best = tried;
            }
        }
        return best;
    }

    const std::vector<Spare>& m_spares;
    std::map<std::string, Alike>& m_lots;
    std::size_t m_most;
    std::vector<bool> m_taken;
    std::set<std::string> m_served;
    std::map<std::pair<std::size_t, std::string>, std::unique_ptr<Packable>> m_made;
};

} // namespace

BatchPlanner::BatchPlanner(std::vector<Packable> cylinders, std::vector<Spare> spares)
    : m_cylinders(std::move(cylinders)), m_spares(std::move(spares)) {
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
        std::sort(lot.begin(), lot.end(), roomierFirst);
    }
    SpareChooser chooser(m_spares, byLot, most);
    chooser.choose();
    for (auto& [name, lot] : byLot) {
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
