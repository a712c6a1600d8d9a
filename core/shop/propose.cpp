#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "core/shop/charge_stop.h"
#include "core/shop/plan_watch.h"

namespace tarebook {

namespace {

/// Of the method and the machine, and what is to be watched with the chosen ones.
std::vector<Finding> findingsOf(Shop& shop, const JobPlan& plan, const PlanSurvey& survey,
                                const std::vector<Candidate>& chosen) {
    std::vector<Finding> findings = workFindings(shop, plan, survey.ask);
    std::set<std::string> subjects;
    for (const Candidate& candidate : chosen) {
        subjects.insert(Account::cylinder(candidate.serial).text());
    }
    std::copy_if(survey.cautions.begin(), survey.cautions.end(), std::back_inserter(findings),
                 [&](const Finding& finding) { return subjects.contains(finding.subject); });
    return findings;
}

} // namespace

Result<Proposal> propose(Shop& shop, const JobPlan& plan) {
    auto surveyed = surveyFor(shop, plan);
    if (!surveyed) {
        return surveyed.error();
    }
    PlanSurvey survey = std::move(surveyed).value();
    Proposal proposal;
    proposal.leftOut = std::move(survey.leftOut);
    const std::vector<std::size_t> offered = ratedFirst(survey, survey.needed);
    std::vector<std::size_t> chosen = FewestCylinders(itemsAt(survey, offered), survey.needed).choose();
    std::transform(chosen.begin(), chosen.end(), chosen.begin(),
                   [&](std::size_t place) { return offered[place]; });
    const bool recovering = plan.purpose != Purpose::charge;
    for (std::size_t place = 0; place < survey.fit.size(); ++place) {
        const Candidate& candidate = survey.fit[place];
        if (std::binary_search(chosen.begin(), chosen.end(), place)) {
            proposal.chosen.push_back(candidate);
        } else if (candidate.room >= survey.needed || chosen.size() != 1) {
            proposal.others.push_back(candidate);
        } else {
            proposal.leftOut.push_back(
                {candidate.serial, recovering ? "plan.room" : "plan.empty",
                 fmt::format("{} {} is too little alone.", shop.display().limit(candidate.room),
                             recovering ? "of room" : "inside")});
        }
    }
    if (!recovering) {
        setChargeStops(proposal.chosen, plan.expected);
    }
    // What would do as well: the roomiest first.
    std::stable_sort(proposal.others.begin(), proposal.others.end(),
                     [](const Candidate& one, const Candidate& other) { return one.room > other.room; });
    std::sort(proposal.leftOut.begin(), proposal.leftOut.end(),
              [](const LeftOut& one, const LeftOut& other) { return one.serial < other.serial; });
    if (chosen.empty()) {
        proposal.problem = nothingSuffices(shop, plan, survey);
    }
    proposal.findings = findingsOf(shop, plan, survey, proposal.chosen);
    for (Candidate& candidate : proposal.chosen) {
        AtAmbient there = atAmbient(shop, plan, survey.ask, candidate);
        candidate.atAmbient = std::move(there.text);
        if (there.finding) {
            proposal.findings.push_back(std::move(*there.finding));
        }
    }
    std::stable_sort(proposal.findings.begin(), proposal.findings.end(),
                     [](const Finding& one, const Finding& other) { return one.severity > other.severity; });
    return proposal;
}

} // namespace tarebook
