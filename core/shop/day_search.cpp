#include "core/shop/day_search.h"

#include <algorithm>
#include <memory>
#include <numeric>
#include <optional>
#include <queue>
#include <set>
#include <tuple>

#include "core/shop/day_kinds.h"

namespace tarebook {

namespace {

constexpr std::size_t kNodesOfRepair = 16; // one of so many is made lawful, for something to show

using PartOf = std::shared_ptr<const DayPart>;

/// A question: the best for each need within its caps.
struct DayNode {
    DayCost bound{};
    std::size_t number = 0; // in the order in which they were made
    std::vector<DayCaps> caps;
    std::vector<PartOf> parts;
};

struct LaterFirst {
    bool operator()(const DayNode& one, const DayNode& other) const {
        // Of equal bounds the newest: it is nearest to an end.
        return std::tuple(one.bound, other.number) > std::tuple(other.bound, one.number);
    }
};

/// A kind of which more is asked for than there is, and who asks.
struct Quarrel {
    std::size_t kind = 0;
    std::size_t excess = 0;
    std::vector<std::pair<std::size_t, std::size_t>> users; // place among the needs, how many
};

/// Searches needs that share kinds.
class SharedSearch {
public:
    SharedSearch(const DayKinds& kinds, std::vector<std::size_t> needs, std::size_t mostNodes)
        : m_kinds(kinds), m_needs(std::move(needs)), m_mostNodes(mostNodes) {}

    void run() {
        DayNode root;
        root.caps.resize(m_needs.size());
        for (std::size_t place = 0; place < m_needs.size(); ++place) {
            root.parts.push_back(partOf(place, {}));
            root.bound = root.bound + root.parts.back()->cost;
        }
        m_open.push(std::move(root));
        while (!m_open.empty()) {
            const DayNode node = m_open.top();
            m_open.pop();
            if (!m_best.empty() && !(node.bound < m_bestCost)) {
                return; // so are all others
            }
            if (m_nodes == m_mostNodes) {
                m_proved = false;
                return;
            }
            ++m_nodes;
            const auto quarrel = quarrelOf(node);
            if (!quarrel) {
                keep(node.parts);
                continue;
            }
            if (m_nodes % kNodesOfRepair == 1) {
                repair(node);
            }
            branch(node, *quarrel);
        }
    }

    [[nodiscard]] const std::vector<std::size_t>& needs() const { return m_needs; }
    [[nodiscard]] const std::vector<PartOf>& best() const { return m_best; }
    [[nodiscard]] bool proved() const { return m_proved; }
    [[nodiscard]] std::size_t nodes() const { return m_nodes; }

private:
    PartOf partOf(std::size_t place, const DayCaps& caps) {
        PartOf& known = m_known[{place, caps}];
        if (!known) {
            known = std::make_shared<const DayPart>(m_kinds.best(m_needs[place], caps));
        }
        return known;
    }

    /// That of which most is missing, of equal ones the first.
    [[nodiscard]] std::optional<Quarrel> quarrelOf(const DayNode& node) const {
        std::map<std::size_t, Quarrel> asked;
        for (std::size_t place = 0; place < node.parts.size(); ++place) {
            for (const auto& [kind, count] : node.parts[place]->counts) {
                Quarrel& its = asked[kind];
                its.kind = kind;
                its.excess += count;
                its.users.emplace_back(place, count);
            }
        }
        std::optional<Quarrel> worst;
        for (auto& [kind, its] : asked) {
            const std::size_t there = m_kinds.members(kind).size();
            if (its.excess <= there) {
                continue;
            }
            its.excess -= there;
            if (!worst || its.excess > worst->excess) {
                worst = std::move(its);
            }
        }
        return worst;
    }

    void branch(const DayNode& node, const Quarrel& quarrel) {
        std::vector<DayNode> children;
        std::vector<DayCost> more;
        children.reserve(quarrel.users.size());
        more.reserve(quarrel.users.size());
        for (const auto& [place, count] : quarrel.users) {
            DayNode child = node;
            child.caps[place][quarrel.kind] = count - 1;
            child.parts[place] = partOf(place, child.caps[place]);
            more.push_back(child.parts[place]->cost - node.parts[place]->cost);
            children.push_back(std::move(child));
        }
        const DayCost least = sumOf(node.parts) + leastMore(quarrel, more);
        for (DayNode& child : children) {
            child.bound = std::max({node.bound, least, sumOf(child.parts)});
            if ((m_best.empty() || child.bound < m_bestCost) && m_seen.insert(child.caps).second) {
                child.number = ++m_made;
                m_open.push(std::move(child));
            }
        }
    }

    /// What giving way costs at least: so many needs get less of the kind, and each pays at least what one
    /// less costs it.
    static DayCost leastMore(const Quarrel& quarrel, std::vector<DayCost> more) {
        std::vector<std::size_t> counts;
        counts.reserve(quarrel.users.size());
        for (const auto& [place, count] : quarrel.users) {
            counts.push_back(count);
        }
        std::sort(counts.rbegin(), counts.rend());
        std::sort(more.begin(), more.end());
        DayCost sum{};
        std::size_t given = 0;
        for (std::size_t number = 0; given < quarrel.excess; ++number) {
            given += counts[number];
            sum = sum + more[number];
        }
        return sum;
    }

    static DayCost sumOf(const std::vector<PartOf>& parts) {
        return std::accumulate(parts.begin(), parts.end(), DayCost{},
                               [](const DayCost& sum, const PartOf& part) { return sum + part->cost; });
    }

    void keep(const std::vector<PartOf>& parts) {
        const DayCost cost = sumOf(parts);
        if (m_best.empty() || cost < m_bestCost) {
            m_best = parts;
            m_bestCost = cost;
        }
    }

    /// A choice that is lawful, if not the best: one need after the other takes what is there; from the first
    /// and from the last, and those first whose best is dearest.
    void repair(const DayNode& node) {
        std::vector<std::size_t> order(m_needs.size());
        std::iota(order.begin(), order.end(), std::size_t{0});
        repairIn(node, order);
        std::reverse(order.begin(), order.end());
        repairIn(node, order);
        std::stable_sort(order.begin(), order.end(), [&](std::size_t one, std::size_t other) {
            return node.parts[one]->cost > node.parts[other]->cost;
        });
        repairIn(node, order);
    }

    void repairIn(const DayNode& node, const std::vector<std::size_t>& order) {
        std::vector<PartOf> parts(m_needs.size());
        std::map<std::size_t, std::size_t> taken; // by kind
        for (const std::size_t place : order) {
            PartOf part = node.parts[place];
            const bool there = std::all_of(part->counts.begin(), part->counts.end(), [&](const auto& its) {
                return taken[its.first] + its.second <= m_kinds.members(its.first).size();
            });
            if (!there) {
                DayCaps caps;
                for (const auto& [kind, count] : taken) {
                    if (count > 0) {
                        caps[kind] = m_kinds.members(kind).size() - count;
                    }
                }
                part = std::make_shared<const DayPart>(m_kinds.best(m_needs[place], caps));
            }
            for (const auto& [kind, count] : part->counts) {
                taken[kind] += count;
            }
            parts[place] = std::move(part);
        }
        keep(parts);
    }

    const DayKinds& m_kinds;
    std::vector<std::size_t> m_needs; // their places in the question
    std::size_t m_mostNodes;
    std::size_t m_nodes = 0;
    std::size_t m_made = 0;
    bool m_proved = true;
    std::priority_queue<DayNode, std::vector<DayNode>, LaterFirst> m_open;
    std::set<std::vector<DayCaps>> m_seen;
    std::map<std::pair<std::size_t, DayCaps>, PartOf> m_known;
    std::vector<PartOf> m_best;
    DayCost m_bestCost{};
};

} // namespace

DayChoice chooseForDay(const std::vector<DayNeed>& needs, const std::vector<DayCylinder>& cylinders,
                       std::size_t mostNodes) {
    const DayKinds kinds(needs, cylinders);
    DayChoice choice;
    choice.parts.resize(needs.size());
    std::vector<std::size_t> given(kinds.count(), 0);
    for (std::vector<std::size_t>& set : kinds.apart()) {
        SharedSearch search(kinds, std::move(set), std::max<std::size_t>(mostNodes, 1));
        search.run();
        choice.proved = choice.proved && search.proved();
        choice.nodes += search.nodes();
        for (std::size_t place = 0; place < search.needs().size(); ++place) {
            const std::size_t need = search.needs()[place];
            const DayPart& best = *search.best()[place];
            DayChoice::Part& part = choice.parts[need];
            for (const auto& [kind, count] : best.counts) {
                for (std::size_t number = 0; number < count; ++number) {
                    part.cylinders.push_back(kinds.members(kind)[given[kind]++]);
                }
            }
            std::sort(part.cylinders.begin(), part.cylinders.end());
            part.left = kinds.leftOf(need, best.left);
        }
    }
    return choice;
}

} // namespace tarebook
