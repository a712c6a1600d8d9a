#include "core/shop/returns.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/shop/findings.h"
#include "core/shop/names.h"
#include "core/shop/plan_rules.h"
#include "core/shop/return_candidate.h"
#include "core/shop/van.h"

namespace tarebook {

namespace {

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
        if (state && state.value() && holdsUsedGas(state.value()->content)) {
            candidates.push_back(returnCandidateOf(shop, *state.value(), state.value()->batch, shop.today()));
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
        const ReturnCandidate candidate =
            returnCandidateOf(shop, state.value(), state.value().batch, shop.today());
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
