#pragma once

#include <vector>

#include "core/shop/counter.h"
#include "core/shop/fewest_cylinders.h"
#include "core/shop/plan_rules.h"

namespace tarebook {

/// What every cylinder of the fleet could do for a plan.
struct PlanSurvey {
    PlanAsk ask;
    Mass needed;                   // what is expected, and the margin
    std::vector<Candidate> fit;    // by serial
    std::vector<PlanItem> items;   // the same, for FewestCylinders
    std::vector<bool> rated;       // of the same, on record as rated for flammable gas
    std::vector<Finding> cautions; // of those that fit, what is to be watched with them
    std::vector<LeftOut> leftOut;  // by serial, each with all that speaks against it
    int forBurnOuts = 0;           // cylinders kept for gas of burn-outs, whatever else speaks against them
};
/// What the plan asks of each cylinder: the refrigerant and the owner by the system where they are not named,
/// the day of return. Error: as propose().
[[nodiscard]] Result<PlanAsk> planAskOf(Shop& shop, const JobPlan& plan);
/// Error: as propose().
[[nodiscard]] Result<PlanSurvey> surveyFor(Shop& shop, const JobPlan& plan);

/// `32.0 lb`, with the margin where there is one: `32.0 lb and 3.2 lb of margin`.
[[nodiscard]] std::string neededText(const Shop& shop, const JobPlan& plan);
/// No cylinders together will do, in a sentence.
[[nodiscard]] std::string nothingSuffices(const Shop& shop, const JobPlan& plan, const PlanSurvey& survey);

} // namespace tarebook
