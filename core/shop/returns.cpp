#include "core/shop/returns.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/shop/findings.h"
#include "core/shop/names.h"
#include "core/shop/plan_rules.h"
#include "core/shop/retest_of.h"
#include "core/shop/return_candidate.h"
#include "core/shop/shipping.h"
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

/// One way out of a refusal is a decant where it stands: into which cylinder.
std::string withTarget(Targets& targets, const CylinderState& state, const std::string& remedy) {
    const std::string target =
        state.content.empty() ? std::string() : targets.of(state, state.content.total());
    return target.empty() ? remedy
                          : fmt::format("{} {} is in the shop, in date and has room.", remedy, target);
}

/// What the finding repeats is said by that rule, and is no custom of the trade where it is law.
void cite(const Finding& rule, Finding& finding) {
    finding.citation = rule.citation;
    finding.edition = rule.edition;
    finding.firmness = rule.firmness;
    finding.working = rule.working;
    finding.row = rule.row;
}

/// A law that lets it travel this once, to be emptied: the rule that says so.
void addLastTrip(const Shop& shop, const CylinderState& state, Review& review) {
    const auto verdict =
        state.content.empty() ? Result<RetestVerdict>(Error{}) : retestOf(shop, state, shop.today());
    if (!verdict || !verdict.value().onlyToEmpty) {
        return;
    }
    for (Finding finding : verdict.value().findings) {
        if (finding.rule == verdict.value().rule) {
            finding.subject = Account::cylinder(state.plate.serial).text();
            finding.severity = Severity::caution;
            review.findings.push_back(std::move(finding));
            return;
        }
    }
}

} // namespace

Result<std::vector<ReturnCandidate>> returnCandidates(Shop& shop, bool empties, const std::string& batch) {
    if (!batch.empty()) {
        if (const auto anew = batchThatIs(shop, batch, "prepared"); !anew) {
            return anew.error();
        }
    }
    const auto rows = shop.store().fleet({});
    if (!rows) {
        return rows.error();
    }
    std::vector<ReturnCandidate> candidates;
    for (const FleetRow& row : rows.value()) {
        const bool wanted = row.netMg > 0 || (empties && row.condition != "retired");
        if (!wanted || row.condition == "away") {
            continue;
        }
        const auto state = shop.store().cylinder(row.serial);
        if (state && state.value() && (row.netMg <= 0 || holdsUsedGas(state.value()->content))) {
            candidates.push_back(returnCandidateOf(shop, *state.value(), batch, shop.today()));
        }
    }
    std::stable_sort(candidates.begin(), candidates.end(),
                     [](const ReturnCandidate& one, const ReturnCandidate& other) {
                         const bool bare = one.line == "empty";
                         const bool otherBare = other.line == "empty";
                         return std::tie(other.eligible, bare, one.line, one.serial) <
                                std::tie(one.eligible, otherBare, other.line, other.serial);
                     });
    return candidates;
}

Review reviewBatch(Shop& shop, const std::string& reclaimer, const std::vector<std::string>& serials,
                   const std::string& batch) {
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
    Targets targets(shop, shop.today());
    for (const std::string& serial : serials) {
        const auto state = stateNamed(shop, serial);
        if (!state) {
            review.findings.push_back(planFinding("cylinder:" + serial, "batch.serial", Severity::refusal,
                                                  state.error().wrong, state.error().right));
            continue;
        }
        const ReturnCandidate candidate = returnCandidateOf(shop, state.value(), batch, shop.today());
        if (!candidate.eligible) {
            const TransportVerdict transport = transportOf(shop, state.value(), shop.today());
            const bool unlawful = !transport.reason.empty();
            review.findings.push_back(planFinding(
                "cylinder:" + serial, "batch.not-eligible", Severity::refusal, candidate.reason,
                unlawful ? withTarget(targets, state.value(), candidate.remedy) : candidate.remedy));
            if (transport.reason == candidate.reason && !transport.rule.rule.empty()) {
                cite(transport.rule, review.findings.back());
            }
            continue;
        }
        addLastTrip(shop, state.value(), review);
        if (candidate.line == "mixed") {
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
