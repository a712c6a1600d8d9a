#include <algorithm>

#include <fmt/format.h>

#include "core/shop/books.h"
#include "core/shop/plan_rules.h"

namespace tarebook {

namespace {

constexpr std::size_t kMostLots = 4; // named in one sentence

/// ` (entry 6483 of 2026-08-24, from system HARBOR/CHILLER-1)`: the lots of such gas in the cylinder, the
/// largest first; empty where the books cannot tell.
template <typename Wanted> std::string lotsText(Shop& shop, const std::string& serial, const Wanted& wanted) {
    const auto reader = shop.store().legReader();
    const auto trace = traceBackward(*reader, Account::cylinder(serial), {});
    if (!trace) {
        return {};
    }
    std::vector<BackwardPart> parts;
    std::copy_if(trace.value().parts.begin(), trace.value().parts.end(), std::back_inserter(parts),
                 [&](const BackwardPart& part) { return wanted(part.gas); });
    std::stable_sort(parts.begin(), parts.end(), [](const BackwardPart& one, const BackwardPart& other) {
        return one.mass > other.mass;
    });
    const Display display = shop.display();
    std::string text;
    for (std::size_t place = 0; place < std::min(kMostLots, parts.size()); ++place) {
        const BackwardPart& part = parts[place];
        text += fmt::format("{}{}entry {} of {}, from {}", text.empty() ? "" : "; ",
                            parts.size() > 1 ? display.mass(part.mass) + " " : "", part.lot.entry,
                            shop.zone().dateOf(part.lot.occurred).text(), accountWords(part.lot.source));
    }
    if (parts.size() > kMostLots) {
        text += fmt::format("; and {} lots more", parts.size() - kMostLots);
    }
    return text.empty() ? text : " (" + text + ")";
}

} // namespace

bool isUsed(GasState state) {
    return state == GasState::recovered || state == GasState::recycled;
}

PlanAsk askToDecant(const Holding& content, Date on) {
    PlanAsk ask;
    ask.back = on;
    ask.refrigerant = contentsText(content);
    ask.owner = content.empty() ? std::string() : content.parts().begin()->first.owner;
    ask.clean = neverUsed(content);
    return ask;
}

bool neverUsed(const Holding& content) {
    return !content.empty() && std::none_of(content.parts().begin(), content.parts().end(),
                                            [](const auto& part) { return isUsed(part.first.state); });
}

std::string foreignGas(Shop& shop, const Holding& content, const std::string& owner,
                       const std::string& serial) {
    const auto isForeign = [&](const Gas& gas) { return isUsed(gas.state) && gas.owner != owner; };
    const Display display = shop.display();
    std::string text;
    for (const auto& [gas, milligrams] : content.parts()) {
        if (isForeign(gas)) {
            text += fmt::format("{}{} {} of {}", text.empty() ? "" : ", ",
                                display.mass(Mass::fromMilligrams(milligrams)), gasStateWord(gas.state),
                                gas.owner.empty() ? "the shop" : gas.owner);
        }
    }
    if (!text.empty() && !serial.empty()) {
        text += lotsText(shop, serial, isForeign);
    }
    return text.empty() ? text
                        : "Used gas goes back only to its owner's equipment unless reclaimed: " + text + ".";
}

} // namespace tarebook
