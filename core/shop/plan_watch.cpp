#include "core/shop/plan_watch.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include <fmt/format.h>

#include "core/refrigerant/cylinder_state.h"
#include "core/rules/contents_on_top.h"
#include "core/shop/machines.h"
#include "core/shop/out_of_use.h"
#include "core/shop/recovery_method.h"

namespace tarebook {

namespace {

constexpr double kPercent = 100;

} // namespace

std::vector<Finding> workFindings(Shop& shop, const JobPlan& plan, const PlanAsk& ask) {
    const auto system = systemNamed(shop, plan.system);
    std::vector<Finding> findings = methodFindings(shop, system, plan, ask.back);
    if (system && plan.purpose != Purpose::carry) {
        if (auto gone = outOfUseFinding(shop, *system, "plan.out-of-use")) {
            findings.push_back(std::move(*gone));
        }
    }
    if (plan.purpose != Purpose::recover) {
        return findings;
    }
    for (Finding& finding : machineFindings(shop, {plan.system, ask.refrigerant, plan.machine}, shop.now())) {
        findings.push_back(std::move(finding));
    }
    if (ask.refrigerant == kUnknownGas) {
        Finding finding = planFinding(
            "", "plan.unknown-gas", Severity::caution,
            "Limit and pressure are not known: keep well below 80 % of the water capacity.",
            "Mark the cylinder UNKNOWN, treat it as flammable and of high pressure, have it analysed.");
        const RowSource& row = shop.limitSourceOn(ask.back).contentsRules().unknownGas;
        finding = shop.limitSourceOn(ask.back).contentsRules().finding(row, finding.rule, finding.severity,
                                                                       "", finding.headline, finding.remedy);
        finding.working.emplace_back(
            "room is reckoned as if it were propane, the lightest in common use (common practice, from "
            "memory: the lowest density that could be present)");
        findings.push_back(std::move(finding));
    }
    return findings;
}

AtAmbient atAmbient(Shop& shop, const JobPlan& plan, const PlanAsk& ask, const Candidate& cylinder) {
    AtAmbient answer;
    const auto state = shop.store().cylinder(cylinder.serial);
    if (!plan.ambient || ask.gas.empty() || !cylinder.limitKnown || !state || !state.value()) {
        return answer;
    }
    const bool recovering = plan.purpose == Purpose::recover;
    const Mass mass = Mass::fromMilligrams(state.value()->content.total().milligrams() +
                                           (recovering ? cylinder.room.milligrams() : 0));
    const auto resting = cylinderStateAt(shop.catalogue(), ask.gas, mass,
                                         state.value()->plate.waterCapacity.volume(), *plan.ambient);
    if (!resting) {
        return answer;
    }
    const Display display = shop.display();
    const RestingContents& its = resting.value();
    const std::string at = display.temperature(*plan.ambient);
    const bool burst = its.filling == Filling::liquidFull;
    answer.text =
        burst ? fmt::format("at {} full of liquid", at)
              : fmt::format("{}at {}: {}, {} % liquid by volume", recovering ? "full to its limit " : "", at,
                            display.pressure(its.pressure.gauge()), std::lround(its.liquidShare * kPercent));
    const Limits limits = limitsFor(shop, *state.value(), ask.refrigerant, ask.back);
    const bool tooHigh = limits.pressureLimit.kilopascal() > 0 && its.pressure.gauge() > limits.pressureLimit;
    if (burst || tooHigh) {
        answer.finding = planFinding(
            Account::cylinder(cylinder.serial).text(), "plan.ambient", Severity::caution,
            burst
                ? fmt::format("At {} liquid would fill it to the brim and burst it.", at)
                : fmt::format("At {} its pressure would be {}, above {} of its mark.", at,
                              display.pressure(its.pressure.gauge()), display.pressure(limits.pressureLimit)),
            "Keep it cool and out of the sun, stop earlier, or take a larger one of a higher class.");
    }
    return answer;
}

std::vector<std::size_t> allOf(const PlanSurvey& survey) {
    std::vector<std::size_t> all(survey.fit.size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    return all;
}

std::vector<std::size_t> ratedFirst(const PlanSurvey& survey, Mass needed) {
    std::vector<std::size_t> all = allOf(survey);
    if (survey.ask.purpose != Purpose::recover || !survey.ask.burns.value_or(false)) {
        return all;
    }
    std::vector<std::size_t> rated;
    std::int64_t room = 0;
    for (const std::size_t place : all) {
        if (survey.rated[place]) {
            rated.push_back(place);
            room += std::min(survey.fit[place].room, needed).milligrams();
        }
    }
    return room >= needed.milligrams() ? rated : all;
}

std::vector<PlanItem> itemsAt(const PlanSurvey& survey, const std::vector<std::size_t>& places) {
    std::vector<PlanItem> items;
    items.reserve(places.size());
    for (const std::size_t place : places) {
        items.push_back(survey.items[place]);
    }
    return items;
}

} // namespace tarebook
