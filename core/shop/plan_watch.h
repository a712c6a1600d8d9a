#pragma once

#include <string>
#include <vector>

#include "core/shop/plan_survey.h"

namespace tarebook {

/// What stands on the plan itself, whichever cylinders go: method and machine of a recovery, and that nobody
/// knows the gas (`plan.unknown-gas`, a caution: no limit and no pressure can be told).
[[nodiscard]] std::vector<Finding> workFindings(Shop& shop, const JobPlan& plan, const PlanAsk& ask);

/// What liquid and pressure are at the ambient of the plan: to recover, when the cylinder is full to its
/// limit; to charge, of what is inside. Beside the limit, never in its place. `finding`: liquid fills it
/// there, or its pressure is above the limit of its mark (`plan.ambient`, a caution).
struct AtAmbient {
    std::string text; // as Candidate::atAmbient
    std::optional<Finding> finding;
};
[[nodiscard]] AtAmbient atAmbient(Shop& shop, const JobPlan& plan, const PlanAsk& ask,
                                  const Candidate& cylinder);

/// Of gas that burns the cylinders that are on record as rated for it, where those alone suffice; otherwise
/// all that fit. Places in `survey.fit`, ascending.
[[nodiscard]] std::vector<std::size_t> ratedFirst(const PlanSurvey& survey, Mass needed);

/// Places of all that fit.
[[nodiscard]] std::vector<std::size_t> allOf(const PlanSurvey& survey);

/// Items of those places, for FewestCylinders.
[[nodiscard]] std::vector<PlanItem> itemsAt(const PlanSurvey& survey, const std::vector<std::size_t>& places);

} // namespace tarebook
