#include <algorithm>
#include <tuple>

#include "core/shop/plan_rules.h"

namespace tarebook {

namespace {

constexpr int kMostTried = 100; // cylinders, for one target

} // namespace

std::string Targets::of(const CylinderState& state, Mass mass) {
    const auto parts = state.content.byRefrigerant();
    if (parts.empty()) {
        return {};
    }
    const PlanAsk ask = askToDecant(state.content, m_on);
    const std::vector<const FleetRow*> likely = likeliest(contentName(state.content), mass);
    const FleetRow* best = nullptr;
    std::pair<int, Mass> bestRank;
    int tried = 0;
    for (const FleetRow* row : likely) {
        const bool better = best == nullptr || (best->netMg == 0 && bestRank.first > 1) ||
                            (row->netMg == best->netMg && row->waterCapacityMg == best->waterCapacityMg);
        if (!better || tried == kMostTried) {
            break;
        }
        if (row->serial == state.plate.serial) {
            continue;
        }
        const auto other = m_shop.store().cylinder(row->serial);
        if (!other || !other.value()) {
            continue;
        }
        ++tried;
        const PlanUse use = planUse(m_shop, *other.value(), ask);
        const std::pair<int, Mass> rank{use.rank(), use.room};
        if (use.fits() && use.room >= mass && (best == nullptr || rank < bestRank)) {
            best = row;
            bestRank = rank;
        }
    }
    return best == nullptr ? std::string() : best->serial;
}

const std::vector<FleetRow>& Targets::here() {
    if (!m_here) {
        m_here.emplace();
        if (auto rows = m_shop.store().fleet({{}, "serviceable", 0, 0})) {
            m_here = std::move(rows).value();
            std::erase_if(*m_here, [](const FleetRow& row) { return !row.holder.empty(); });
        }
    }
    return *m_here;
}

/// Part-filled ones by the room that they keep, then empties by their size: what their rows say already.
std::vector<const FleetRow*> Targets::likeliest(const std::string& content, Mass mass) {
    std::vector<const FleetRow*> likely;
    for (const FleetRow& row : here()) {
        if (row.netMg == 0 || (row.content == content && row.limitMg - row.netMg >= mass.milligrams())) {
            likely.push_back(&row);
        }
    }
    const auto order = [](const FleetRow* row) {
        return std::tuple(row->netMg == 0, row->netMg == 0 ? row->waterCapacityMg : row->limitMg - row->netMg,
                          std::string_view(row->serial));
    };
    const auto most = std::min(std::ssize(likely), std::ptrdiff_t{4} * kMostTried);
    std::partial_sort(likely.begin(), likely.begin() + most, likely.end(),
                      [&](const FleetRow* one, const FleetRow* other) { return order(one) < order(other); });
    likely.resize(static_cast<std::size_t>(most));
    return likely;
}

} // namespace tarebook
