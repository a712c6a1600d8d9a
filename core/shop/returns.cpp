#include "core/shop/returns.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/shop/findings.h"
#include "core/shop/names.h"
#include "core/shop/plan_rules.h"
#include "core/shop/shipping.h"
#include "core/shop/van.h"

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
              const Shipping& shipping) {
    if (!state.holder.empty()) {
        return {fmt::format("Out with {}.", state.holder), "Call it back and check it in."};
    }
    if (state.condition == Condition::lost || state.condition == Condition::away ||
        state.condition == Condition::retired) {
        return {fmt::format("Not in the shop: {}.", conditionWord(state.condition)), "Find it first."};
    }
    if (state.content.empty()) {
        return {"Nothing inside.", ""};
    }
    if (!state.batch.empty() && state.batch != batch) {
        return {fmt::format("Set aside for batch {}.", state.batch),
                "Ship that batch, or prepare it again without it."};
    }
    const TransportVerdict transport = transportOf(shop, state, shop.today());
    if (!transport.reason.empty()) {
        return {transport.reason, transport.remedy};
    }
    if (!shipping.problem.empty()) {
        return {"No shipping description: " + shipping.problem, "Have the contents analysed."};
    }
    return {};
}

ReturnCandidate candidateOf(const Shop& shop, const CylinderState& state, const std::string& batch) {
    ReturnCandidate candidate;
    candidate.serial = state.plate.serial;
    candidate.content = returnContent(shop, state.content);
    candidate.line = lineOf(shop, state.content);
    candidate.net = state.content.total();
    candidate.gross = Mass::fromMilligrams(state.plate.tare.milligrams() + candidate.net.milligrams());
    candidate.owner = ownersOf(state.content);
    const Shipping shipping = shippingOf(shop, state);
    candidate.shipping = shipping.text;
    const Verdict verdict = judge(shop, state, batch, shipping);
    candidate.reason = verdict.reason;
    candidate.remedy = verdict.remedy;
    candidate.eligible = verdict.reason.empty();
    return candidate;
}

bool holdsUsed(const Holding& content) {
    return std::any_of(content.parts().begin(), content.parts().end(), [](const auto& part) {
        return part.first.state == GasState::recovered || part.first.state == GasState::recycled;
    });
}

/// What the batch is as one load of the shop's own vehicle, where it is beyond the small-load relief.
void addLoad(Shop& shop, const std::vector<std::string>& serials, Review& review) {
    const auto van = review.refused() ? Result<VanLoad>(Error{}) : vanLoad(shop, {}, serials);
    if (!van) {
        return;
    }
    for (const Finding& finding : van.value().load.findings) {
        if (finding.severity == Severity::caution) {
            review.findings.push_back(finding);
        }
    }
}

} // namespace

Result<std::vector<ReturnCandidate>> returnCandidates(Shop& shop) {
    const auto rows = shop.store().fleet({});
    if (!rows) {
        return rows.error();
    }
    std::vector<ReturnCandidate> candidates;
    for (const FleetRow& row : rows.value()) {
        if (row.netMg <= 0 || row.condition == "away") {
            continue;
        }
        const auto state = shop.store().cylinder(row.serial);
        if (state && state.value() && holdsUsed(state.value()->content)) {
            candidates.push_back(candidateOf(shop, *state.value(), state.value()->batch));
        }
    }
    std::stable_sort(candidates.begin(), candidates.end(),
                     [](const ReturnCandidate& one, const ReturnCandidate& other) {
                         return std::tie(other.eligible, one.line, one.serial) <
                                std::tie(one.eligible, other.line, other.serial);
                     });
    return candidates;
}

Review reviewBatch(Shop& shop, const std::string& reclaimer, const std::vector<std::string>& serials) {
    Review review;
    const auto known = Account::parse("reclaimer:" + reclaimer);
    if (!known) {
        review.findings.push_back(planFinding("", "batch.reclaimer", Severity::refusal, "No reclaimer named.",
                                              "Name the reclaimer."));
    }
    if (serials.empty()) {
        review.findings.push_back(
            planFinding("", "batch.empty", Severity::refusal, "No cylinder named.", "Choose the cylinders."));
    }
    for (const std::string& serial : serials) {
        const auto state = stateNamed(shop, serial);
        if (!state) {
            review.findings.push_back(planFinding("cylinder:" + serial, "batch.serial", Severity::refusal,
                                                  state.error().wrong, state.error().right));
            continue;
        }
        const ReturnCandidate candidate = candidateOf(shop, state.value(), state.value().batch);
        if (!candidate.eligible) {
            review.findings.push_back(planFinding("cylinder:" + serial, "batch.not-eligible",
                                                  Severity::refusal, candidate.reason, candidate.remedy));
        } else if (candidate.line == "mixed") {
            review.findings.push_back(planFinding("cylinder:" + serial, "batch.mixed", Severity::note,
                                                  fmt::format("{} goes as mixed, on its own terms.", serial),
                                                  ""));
        }
    }
    addLoad(shop, serials, review);
    std::stable_sort(review.findings.begin(), review.findings.end(), worseFirst);
    return review;
}

} // namespace tarebook
