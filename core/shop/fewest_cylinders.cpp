#include "core/shop/fewest_cylinders.h"

#include <algorithm>
#include <numeric>
#include <optional>
#include <tuple>

#include "core/shop/step_sums.h"

namespace tarebook {

namespace {

constexpr std::int64_t kFinestStep = 10'000; // mg
constexpr std::int64_t kStepsOfTarget = 1'000;
constexpr std::int64_t kMostWear = 100'000;

} // namespace

Mass roomStep(Mass target) {
    return Mass::fromMilligrams(
        std::max(kFinestStep, (target.milligrams() + kStepsOfTarget - 1) / kStepsOfTarget));
}

FewestCylinders::FewestCylinders(const std::vector<PlanItem>& items, Mass target)
    : m_number(fewest(items, target.milligrams())), m_target(target.milligrams()),
      m_step(roomStep(target).milligrams()), m_goal((m_target + m_step - 1) / m_step) {
    // Even the places of all that are taken together weigh less than one step of wear.
    const auto factor = static_cast<std::int64_t>(std::max<std::size_t>(m_number, 1) * items.size() + 1);
    for (std::size_t place = 0; place < items.size(); ++place) {
        const PlanItem& item = items[place];
        const std::int64_t room = item.room.milligrams();
        if (room > 0) {
            m_items[static_cast<std::size_t>(std::clamp(item.rank, 0, int{kRanks} - 1))].push_back(
                {room, room / m_step,
                 std::clamp<std::int64_t>(item.wear, 0, kMostWear) * factor +
                     static_cast<std::int64_t>(place),
                 place});
        }
    }
    for (std::size_t rank = 0; rank < kRanks; ++rank) {
        std::sort(m_items[rank].begin(), m_items[rank].end(), [](const Item& one, const Item& other) {
            return std::tuple(-one.room, one.worth) < std::tuple(-other.room, other.worth);
        });
        m_sums[rank].push_back(0);
        for (const Item& item : m_items[rank]) {
            m_sums[rank].push_back(m_sums[rank].back() + item.room);
        }
    }
}

std::vector<std::size_t> FewestCylinders::choose() {
    std::optional<Choice> best;
    for (const Counts& counts : m_number == 0 ? std::vector<Counts>() : lowestRanks()) {
        Choice choice = bestOf(counts);
        if (!best || better(choice, *best)) {
            best = std::move(choice);
        }
    }
    if (!best) {
        return {};
    }
    std::sort(best->places.begin(), best->places.end());
    return best->places;
}

std::size_t FewestCylinders::fewest(const std::vector<PlanItem>& items, std::int64_t target) {
    std::vector<std::int64_t> rooms;
    rooms.reserve(items.size());
    for (const PlanItem& item : items) {
        rooms.push_back(item.room.milligrams());
    }
    std::sort(rooms.rbegin(), rooms.rend());
    std::int64_t sum = 0;
    std::size_t number = 0;
    while (sum < target) {
        if (number == rooms.size() || rooms[number] <= 0) {
            return 0;
        }
        sum += rooms[number++];
    }
    return number;
}

std::vector<FewestCylinders::Counts> FewestCylinders::lowestRanks() const {
    std::vector<Counts> ways;
    for (std::size_t sum = 0; ways.empty() && sum <= (kRanks - 1) * m_number; ++sum) {
        for (std::size_t last = 0; 2 * last <= sum; ++last) {
            const std::size_t middle = sum - 2 * last;
            if (middle + last > m_number) {
                continue;
            }
            const Counts counts{m_number - middle - last, middle, last};
            if (canBring(counts)) {
                ways.push_back(counts);
            }
        }
    }
    return ways;
}

bool FewestCylinders::canBring(const Counts& counts) const {
    std::int64_t sum = 0;
    for (std::size_t rank = 0; rank < kRanks; ++rank) {
        if (counts[rank] > m_items[rank].size()) {
            return false;
        }
        sum += m_sums[rank][counts[rank]];
    }
    return sum >= m_target;
}

FewestCylinders::Choice FewestCylinders::bestOf(const Counts& counts) const {
    std::int64_t all = 0; // steps of the largest of each
    for (std::size_t rank = 0; rank < kRanks; ++rank) {
        for (std::size_t place = 0; place < counts[rank]; ++place) {
            all += m_items[rank][place].steps;
        }
    }
    if (all < m_goal) {
        return largestOf(counts);
    }
    std::vector<StepGroup> groups;
    for (std::size_t rank = 0; rank < kRanks; ++rank) {
        if (counts[rank] == 0) {
            continue;
        }
        StepGroup group;
        group.taken = counts[rank];
        std::vector<Item> items = m_items[rank];
        std::stable_sort(items.begin(), items.end(), [](const Item& one, const Item& other) {
            return std::tuple(-one.steps, one.worth) < std::tuple(-other.steps, other.worth);
        });
        // What is smaller than the largest others leave missing is in no choice; of equal ones as many as are
        // taken are enough.
        const std::int64_t others = all - m_items[rank][counts[rank] - 1].steps;
        std::size_t alike = 0;
        for (const Item& item : items) {
            if (item.steps == 0 || item.steps + others < m_goal) {
                break;
            }
            alike = !group.items.empty() && group.items.back().steps == item.steps ? alike + 1 : 0;
            if (alike < group.taken) {
                group.items.push_back({item.steps, item.worth, item.place});
            }
        }
        groups.push_back(std::move(group));
    }
    StepChoice chosen = leastSum(groups, m_goal);
    return {true, chosen.steps - m_goal, chosen.worth, std::move(chosen.places)};
}

FewestCylinders::Choice FewestCylinders::largestOf(const Counts& counts) const {
    Choice choice;
    for (std::size_t rank = 0; rank < kRanks; ++rank) {
        for (std::size_t place = 0; place < counts[rank]; ++place) {
            const Item& item = m_items[rank][place];
            choice.over -= item.room;
            choice.worth += item.worth;
            choice.places.push_back(item.place);
        }
    }
    return choice;
}

bool FewestCylinders::better(const Choice& one, const Choice& other) {
    return std::tuple(!one.cutSuffices, one.over, one.worth) <
           std::tuple(!other.cutSuffices, other.over, other.worth);
}

} // namespace tarebook
