#include "core/shop/day_kinds.h"

#include <algorithm>
#include <numeric>
#include <tuple>

#include "core/shop/fewest_cylinders.h"

namespace tarebook {

namespace {

/// What a cylinder offers to all, as a key: need, room, rank.
using OfferKey = std::vector<std::tuple<std::size_t, std::int64_t, int>>;

OfferKey keyOf(const DayCylinder& cylinder) {
    OfferKey key;
    key.reserve(cylinder.offers.size());
    for (const DayOffer& offer : cylinder.offers) {
        if (offer.room.milligrams() > 0) {
            key.emplace_back(offer.need, offer.room.milligrams(), offer.rank);
        }
    }
    return key;
}

std::size_t capOf(const DayCaps& caps, std::size_t kind, std::size_t all) {
    const auto its = caps.find(kind);
    return its == caps.end() ? all : std::min(its->second, all);
}

} // namespace

DayCost operator+(const DayCost& one, const DayCost& other) {
    DayCost sum{};
    std::transform(one.begin(), one.end(), other.begin(), sum.begin(), std::plus<>());
    return sum;
}

DayCost operator-(const DayCost& one, const DayCost& other) {
    DayCost difference{};
    std::transform(one.begin(), one.end(), other.begin(), difference.begin(), std::minus<>());
    return difference;
}

DayKinds::DayKinds(const std::vector<DayNeed>& needs, const std::vector<DayCylinder>& cylinders)
    : m_cylinders(cylinders), m_offers(needs.size()), m_smallFirst(needs.size()), m_sums(needs.size()) {
    std::map<OfferKey, std::size_t> kinds;
    for (std::size_t place = 0; place < cylinders.size(); ++place) {
        OfferKey key = keyOf(cylinders[place]);
        if (key.empty()) {
            continue;
        }
        const auto [its, fresh] = kinds.emplace(std::move(key), m_members.size());
        if (fresh) {
            m_members.emplace_back();
            for (const auto& [need, room, rank] : its->first) {
                m_offers[need].push_back({its->second, room, rank});
            }
        }
        m_members[its->second].push_back(place);
    }
    for (std::vector<std::size_t>& members : m_members) {
        std::stable_sort(members.begin(), members.end(), [&](std::size_t one, std::size_t other) {
            return cylinders[one].wear < cylinders[other].wear;
        });
    }
    for (std::size_t need = 0; need < needs.size(); ++need) {
        std::stable_sort(m_offers[need].begin(), m_offers[need].end(),
                         [](const Offer& one, const Offer& other) { return one.room > other.room; });
        const std::vector<Mass>& jobs = needs[need].jobs;
        m_smallFirst[need].resize(jobs.size());
        std::iota(m_smallFirst[need].begin(), m_smallFirst[need].end(), std::size_t{0});
        std::stable_sort(m_smallFirst[need].begin(), m_smallFirst[need].end(),
                         [&](std::size_t one, std::size_t other) { return jobs[one] < jobs[other]; });
        m_sums[need].push_back(0);
        for (const std::size_t job : m_smallFirst[need]) {
            m_sums[need].push_back(m_sums[need].back() + jobs[job].milligrams());
        }
    }
}

std::vector<std::vector<std::size_t>> DayKinds::apart() const {
    std::vector<std::size_t> lead(m_offers.size()); // the first need that it is joined with
    std::iota(lead.begin(), lead.end(), std::size_t{0});
    std::vector<std::size_t> firstOf(m_members.size(), m_offers.size());
    for (std::size_t need = 0; need < m_offers.size(); ++need) {
        for (const Offer& offer : m_offers[need]) {
            std::size_t& first = firstOf[offer.kind];
            if (first == m_offers.size()) {
                first = need;
                continue;
            }
            const std::size_t joined = std::min(lead[first], lead[need]);
            const std::size_t gone = std::max(lead[first], lead[need]);
            std::replace(lead.begin(), lead.end(), gone, joined);
        }
    }
    std::map<std::size_t, std::vector<std::size_t>> sets;
    for (std::size_t need = 0; need < lead.size(); ++need) {
        sets[lead[need]].push_back(need);
    }
    std::vector<std::vector<std::size_t>> all;
    all.reserve(sets.size());
    for (auto& [first, set] : sets) {
        all.push_back(std::move(set));
    }
    return all;
}

DayPart DayKinds::best(std::size_t need, const DayCaps& caps) const {
    const std::vector<std::int64_t>& sums = m_sums[need];
    const std::size_t jobs = sums.size() - 1;
    std::int64_t all = 0;
    for (const Offer& offer : m_offers[need]) {
        all += offer.room * static_cast<std::int64_t>(capOf(caps, offer.kind, m_members[offer.kind].size()));
    }
    std::size_t left = 0;
    while (sums[jobs - left] > all) {
        ++left;
    }
    DayPart part = left == jobs ? DayPart{} : choose(need, caps, sums[jobs - left]);
    part.left = left;
    part.cost[0] = static_cast<std::int64_t>(left);
    return part;
}

DayPart DayKinds::choose(std::size_t need, const DayCaps& caps, std::int64_t target) const {
    // No more of a kind is taken than the roomiest of all kinds would be enough.
    std::size_t fewest = 0;
    std::int64_t sum = 0;
    for (const Offer& offer : m_offers[need]) {
        const auto most = static_cast<std::int64_t>(capOf(caps, offer.kind, m_members[offer.kind].size()));
        const std::int64_t missing = target - sum;
        const std::int64_t taken = std::min(most, (missing + offer.room - 1) / offer.room);
        fewest += static_cast<std::size_t>(taken);
        sum += taken * offer.room;
        if (sum >= target) {
            break;
        }
    }
    struct Copy {
        std::size_t place;
        const Offer* offer;
    };
    std::vector<Copy> copies;
    for (const Offer& offer : m_offers[need]) {
        const std::vector<std::size_t>& its = m_members[offer.kind];
        const std::size_t most = std::min(capOf(caps, offer.kind, its.size()), fewest);
        for (std::size_t member = 0; member < most; ++member) {
            copies.push_back({its[member], &offer});
        }
    }
    std::sort(copies.begin(), copies.end(),
              [](const Copy& one, const Copy& other) { return one.place < other.place; });
    std::vector<PlanItem> items;
    items.reserve(copies.size());
    for (const Copy& copy : copies) {
        items.push_back(
            {Mass::fromMilligrams(copy.offer->room), copy.offer->rank, m_cylinders[copy.place].wear});
    }
    const Mass wanted = Mass::fromMilligrams(target);
    const std::int64_t step = roomStep(wanted).milligrams();
    const std::int64_t goal = (target + step - 1) / step;
    std::map<std::size_t, std::size_t> counts;
    std::int64_t room = 0;
    std::int64_t steps = 0;
    DayPart part;
    for (const std::size_t item : FewestCylinders(items, wanted).choose()) {
        const Offer& offer = *copies[item].offer;
        ++counts[offer.kind];
        room += offer.room;
        steps += offer.room / step;
        ++part.cost[1];
        part.cost[2] += offer.rank;
    }
    const bool cut = steps < goal;
    part.cost[3] = cut ? 1 : 0;
    part.cost[4] = cut ? -room : (steps - goal) * step;
    part.counts.assign(counts.begin(), counts.end());
    return part;
}

std::vector<std::size_t> DayKinds::leftOf(std::size_t need, std::size_t left) const {
    const std::vector<std::size_t>& jobs = m_smallFirst[need];
    std::vector<std::size_t> its(jobs.end() - static_cast<std::ptrdiff_t>(left), jobs.end());
    std::sort(its.begin(), its.end());
    return its;
}

} // namespace tarebook
