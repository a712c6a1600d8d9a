#include "core/shop/return_candidate.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/shop/emptied.h"
#include "core/shop/findings.h"
#include "core/shop/shipping.h"
#include "core/shop/standing_fleet.h"

namespace tarebook {

namespace {

/// Contents as the lists and papers of a return name them.
std::string returnContent(const Shop& shop, const Holding& content) {
    const auto read = shop.catalogue().contents(contentsText(content));
    if (!isMixed(shop, content) || !read) {
        return contentName(content);
    }
    return "MIXED: " + contentName(content);
}

std::string lineOf(const Shop& shop, const Holding& content) {
    const auto parts = content.byRefrigerant();
    if (parts.contains("unknown")) {
        return "unknown";
    }
    return isMixed(shop, content) || parts.empty() ? "mixed" : contentName(content);
}

std::string ownersOf(const Holding& content) {
    std::string owners;
    for (const auto& [owner, milligrams] : content.byOwner()) {
        owners += (owners.empty() ? "" : ", ") + (owner.empty() ? std::string("the shop") : owner);
    }
    return owners;
}

struct Verdict {
    std::string reason;
    std::string remedy;
};

/// Whereabouts first: what is not here cannot go; then the law of transport; then the papers.
Verdict judge(const Shop& shop, const CylinderState& state, const std::string& batch,
              const Shipping& shipping, Date on) {
    if (!state.holder.empty()) {
        return {fmt::format("Out with {}.", state.holder), "Call it back and check it in."};
    }
    if (state.condition == Condition::lost || state.condition == Condition::away ||
        state.condition == Condition::retired) {
        return {fmt::format("Not in the shop: {}.", conditionWord(state.condition)), "Find it first."};
    }
    const std::string other = shop.standingFleet().setAsideFor(state.plate.serial, batch);
    if (!other.empty()) {
        return {fmt::format("Set aside for batch {}.", other),
                "Ship that batch, prepare it anew without the cylinder, or reverse it."};
    }
    const TransportVerdict transport = transportOf(shop, state, on);
    if (!transport.reason.empty()) {
        return {transport.reason, transport.remedy};
    }
    if (!shipping.problem.empty()) {
        return {"No shipping description: " + shipping.problem,
                state.content.empty() ? "Evacuate it and enter that, or enter on its tag what it held."
                                      : "Have the contents analysed."};
    }
    return {};
}

} // namespace

ReturnCandidate returnCandidateOf(const Shop& shop, const CylinderState& state, const std::string& batch,
                                  Date on) {
    ReturnCandidate candidate;
    candidate.serial = state.plate.serial;
    candidate.content = returnContent(shop, state.content);
    candidate.line = lineOf(shop, state.content);
    candidate.net = state.content.total();
    candidate.gross = Mass::fromMilligrams(state.plate.tare.milligrams() + candidate.net.milligrams());
    candidate.owner = ownersOf(state.content);
    Shipping shipping;
    if (state.content.empty()) {
        const Emptied its = emptiedOf(shop, state);
        shipping = its.shipping;
        candidate.content = its.content();
        candidate.line = "empty";
        candidate.shipping = its.words.empty() ? shipping.text : its.words;
    } else {
        shipping = shippingOf(shop, state);
        candidate.shipping = shipping.text;
    }
    const Verdict verdict = judge(shop, state, batch, shipping, on);
    candidate.reason = verdict.reason;
    candidate.remedy = verdict.remedy;
    candidate.eligible = verdict.reason.empty();
    return candidate;
}

bool holdsUsedGas(const Holding& content) {
    return std::any_of(content.parts().begin(), content.parts().end(), [](const auto& part) {
        return part.first.state == GasState::recovered || part.first.state == GasState::recycled;
    });
}

} // namespace tarebook
