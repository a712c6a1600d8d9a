#include "core/shop/step_sums.h"

#include <algorithm>
#include <limits>

namespace tarebook {

namespace {

constexpr std::int64_t kNever = std::numeric_limits<std::int64_t>::max() / 2;

/// Best worth by sum, for choices of one number of items; only sums from which the goal can be reached.
struct Layer {
    std::int64_t least = 0;
    std::vector<std::int64_t> worth; // of the sums from least on
    [[nodiscard]] std::int64_t most() const { return least + std::ssize(worth) - 1; }
};

/// For each item and layer, the sums that it made better: the way back.
class Improvements {
public:
    /// Another row, for places first to first + bits - 1.
    void add(std::size_t first, std::size_t bits) {
        m_rows.push_back({m_bits.size(), first, bits});
        m_bits.resize(m_bits.size() + bits, false);
    }
    /// Of the newest row.
    void set(std::size_t place) { m_bits[m_rows.back().start + place - m_rows.back().first] = true; }
    [[nodiscard]] bool has(std::size_t number, std::size_t place) const {
        const Row& row = m_rows[number];
        return place >= row.first && place - row.first < row.bits && m_bits[row.start + place - row.first];
    }
    [[nodiscard]] std::size_t rows() const { return m_rows.size(); }

private:
    struct Row {
        std::size_t start;
        std::size_t first;
        std::size_t bits;
    };
    std::vector<Row> m_rows;
    std::vector<bool> m_bits;
};

class Sums {
public:
    Sums(const std::vector<StepGroup>& groups, std::int64_t goal) : m_groups(groups), m_goal(goal) {
        layOut();
    }

    StepChoice choose() {
        m_layers.front().worth.front() = 0;
        for (const StepGroup& group : m_groups) {
            fill(group);
        }
        return wayBack();
    }

private:
    /// The sums that count, for every number of items: from what the largest of the others must complete to
    /// what the largest bring.
    void layOut() {
        std::int64_t all = 0;
        for (const StepGroup& group : m_groups) {
            for (std::size_t place = 0; place < group.taken; ++place) {
                all += group.items[place].steps;
            }
        }
        std::int64_t before = 0; // of the groups before
        m_layers.push_back(layer(0, 0));
        for (const StepGroup& group : m_groups) {
            std::int64_t whole = 0;
            for (std::size_t place = 0; place < group.taken; ++place) {
                whole += group.items[place].steps;
            }
            std::int64_t most = 0;
            for (std::size_t number = 1; number <= group.taken; ++number) {
                most += group.items[number - 1].steps;
                std::int64_t others = all - before - whole;
                for (std::size_t place = 0; place < group.taken - number; ++place) {
                    others += group.items[place].steps;
                }
                m_layers.push_back(layer(std::max<std::int64_t>(0, m_goal - others), before + most));
            }
            before += whole;
        }
    }

    static Layer layer(std::int64_t least, std::int64_t most) {
        return {least, std::vector<std::int64_t>(
                           static_cast<std::size_t>(std::max<std::int64_t>(most - least + 1, 1)), kNever)};
    }

    void fill(const StepGroup& group) {
        const std::size_t first = m_filled;
        for (const StepGroup::Item& item : group.items) {
            // Downwards: no item is taken twice.
            for (std::size_t number = first + group.taken; number > first; --number) {
                take(item, m_layers[number - 1], m_layers[number]);
            }
        }
        m_filled += group.taken;
    }

    void take(const StepGroup::Item& item, const Layer& from, Layer& to) {
        const std::int64_t first = std::max(from.least, to.least - item.steps);
        const std::int64_t last = std::min(from.most(), to.most() - item.steps);
        m_improved.add(static_cast<std::size_t>(std::max<std::int64_t>(first + item.steps - to.least, 0)),
                       static_cast<std::size_t>(std::max<std::int64_t>(last - first + 1, 0)));
        for (std::int64_t sum = first; sum <= last; ++sum) {
            const std::int64_t worth = from.worth[static_cast<std::size_t>(sum - from.least)] + item.worth;
            const auto place = static_cast<std::size_t>(sum + item.steps - to.least);
            if (worth < to.worth[place]) {
                to.worth[place] = worth;
                m_improved.set(place);
            }
        }
    }

    [[nodiscard]] StepChoice wayBack() const {
        StepChoice choice;
        const Layer& last = m_layers.back();
        const auto found = std::find_if(last.worth.begin(), last.worth.end(),
                                        [](std::int64_t worth) { return worth < kNever; });
        if (found == last.worth.end()) {
            return choice;
        }
        choice.steps = last.least + (found - last.worth.begin());
        choice.worth = *found;
        std::int64_t sum = choice.steps;
        std::size_t layer = m_layers.size() - 1;
        std::size_t row = m_improved.rows();
        for (auto group = m_groups.rbegin(); group != m_groups.rend(); ++group) {
            const std::size_t first = layer - group->taken;
            const std::size_t top = layer;
            for (auto item = group->items.rbegin(); item != group->items.rend(); ++item) {
                row -= group->taken;
                // Rows of an item: the highest layer first.
                if (layer > first && m_improved.has(row + (top - layer),
                                                    static_cast<std::size_t>(sum - m_layers[layer].least))) {
                    choice.places.push_back(item->place);
                    sum -= item->steps;
                    --layer;
                }
            }
        }
        return choice;
    }

    const std::vector<StepGroup>& m_groups;
    std::int64_t m_goal;
    std::vector<Layer> m_layers; // by the number of items taken
    Improvements m_improved;
    std::size_t m_filled = 0;
};

} // namespace

StepChoice leastSum(const std::vector<StepGroup>& groups, std::int64_t goal) {
    return Sums(groups, goal).choose();
}

} // namespace tarebook
