#include "core/shop/plan_survey.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/rules/contents_on_top.h"
#include "core/shop/charge_stop.h"
#include "core/shop/names.h"
#include "core/shop/recovery_method.h"
#include "core/shop/register.h"
#include "core/shop/standing_fleet.h"

namespace tarebook {

namespace {

constexpr std::int64_t kSecondsOfDay = 86'400;
constexpr int kMostLotsNamed = 20; // cylinders of a plan whose lots are looked up: it stays quick
// Where the model of the refrigerants holds.
constexpr Temperature kColdestAmbient = Temperature::fromCelsius(-40);
constexpr Temperature kHottestAmbient = Temperature::fromCelsius(65);

std::string fitNote(const CylinderState& state, const PlanUse& use, Purpose purpose) {
    if (purpose == Purpose::charge) {
        return fmt::format("holds {}", contentName(state.content));
    }
    if (use.partFilled) {
        return "part-filled, same refrigerant and owner";
    }
    if (state.evacuated) {
        return "clean empty, evacuated";
    }
    if (use.evacuateFirst) {
        return "empty, to be evacuated first";
    }
    return use.lastHeld.empty() ? "empty, kept for " + state.plate.refrigerant
                                : fmt::format("empty, held {} last", use.lastHeld);
}

/// All that speaks against the cylinder.
std::string reasonsOf(const Shop& shop, const PlanUse& use, Mass needed) {
    std::string reason;
    bool onlyOwner = true;
    for (const Finding& finding : use.findings) {
        if (finding.severity >= Severity::refusal) {
            reason += (reason.empty() ? "" : " ") + finding.headline;
            onlyOwner = onlyOwner && finding.rule == "plan.owner";
        }
    }
    // Asking the other owner would not help.
    if (onlyOwner && use.room < needed) {
        reason += fmt::format(" {} of room is too little as well.", shop.display().limit(use.room));
    }
    return reason;
}

} // namespace

Result<PlanAsk> planAskOf(Shop& shop, const JobPlan& plan) {
    PlanAsk ask;
    ask.purpose = plan.purpose;
    ask.expected = plan.expected;
    ask.burnOut = plan.burnOut;
    ask.method = plan.purpose == Purpose::recover ? plan.method : Method::unsaid;
    ask.owner = plan.owner;
    const Date day = plan.day.value_or(shop.today());
    ask.back = plan.back.value_or(day);
    // On a day that has passed a retest that is overdue today was not due yet.
    for (const auto& [what, its] :
         {std::pair("the day of the work", day), std::pair("the day of return", ask.back)}) {
        if (its < shop.today()) {
            return Error{fmt::format("{}, {}, has passed", what, its.text()), "plan today or a day to come"};
        }
    }
    if (ask.back < day) {
        return Error{fmt::format("it comes back on {}, before the work on {}", ask.back.text(), day.text()),
                     "exchange the two days"};
    }
    if (plan.ambient && (*plan.ambient < kColdestAmbient || *plan.ambient > kHottestAmbient)) {
        return Error{
            fmt::format("an ambient of {} is none for this work", shop.display().temperature(*plan.ambient)),
            fmt::format("from {} to {}", shop.display().temperature(kColdestAmbient),
                        shop.display().temperature(kHottestAmbient))};
    }
    if (!plan.system.empty()) {
        const auto system = systemNamed(shop, plan.system);
        if (!system) {
            return Error{fmt::format("there is no system {}", tarebook::quoted(plan.system)),
                         "enter the system first, as SITE/TAG"};
        }
        ask.refrigerant = system->refrigerant;
        ask.owner = plan.owner.empty() ? system->customer : plan.owner;
    }
    if (!plan.refrigerant.empty()) {
        auto known = designationOf(shop, plan.refrigerant);
        if (!known) {
            return known.error();
        }
        ask.refrigerant = std::move(known).value();
    }
    if (ask.refrigerant.empty()) {
        return Error{"the plan names no refrigerant", "name the system, or the refrigerant"};
    }
    if (plan.expected.milligrams() <= 0) {
        return Error{"the expected mass must be above zero", "as 32 lb"};
    }
    if (plan.margin.milligrams() < 0) {
        return Error{"the margin must not be below zero", "as 10 %, or 3 lb"};
    }
    if (auto gas = shop.catalogue().contents(ask.refrigerant)) {
        ask.gas = std::move(gas).value();
        ask.burns = asksForRated(shop.limitSourceOn(ask.back).contentsRules(), shop.catalogue(), ask.gas);
    }
    return ask;
}

Result<PlanSurvey> surveyFor(Shop& shop, const JobPlan& plan) {
    auto ask = planAskOf(shop, plan);
    if (!ask) {
        return ask.error();
    }
    PlanSurvey survey;
    survey.ask = std::move(ask).value();
    survey.needed = Mass::fromMilligrams(plan.expected.milligrams() + plan.margin.milligrams());
    PlanAsk asked = survey.ask;
    int foreign = 0;
    const auto seen = shop.standingFleet().each([&](const CylinderState& state) {
        const std::string& serial = state.plate.serial;
        asked.namesLots = foreign < kMostLotsNamed;
        PlanUse use = planUse(shop, state, asked);
        foreign += std::any_of(use.findings.begin(), use.findings.end(),
                               [](const Finding& one) { return one.rule == "plan.used-gas"; })
                       ? 1
                       : 0;
        survey.forBurnOuts += state.plate.burnOut ? 1 : 0;
        if (!use.fits()) {
            survey.leftOut.push_back(
                {serial, use.findings.front().rule, reasonsOf(shop, use, survey.needed)});
            return;
        }
        const Mass now =
            Mass::fromMilligrams(state.plate.tare.milligrams() + state.content.total().milligrams());
        survey.fit.push_back({serial, use.room, use.grossToStop, fitNote(state, use, plan.purpose), now});
        if (plan.purpose == Purpose::charge) {
            Mass missing = plan.expected;
            survey.fit.back().grossToStop = grossWhenCharged(now, use.room, missing);
        }
        survey.items.push_back(
            {use.room, use.rank(), state.lastFilled ? state.lastFilled->seconds() / kSecondsOfDay : 0});
        survey.fit.back().limitKnown = use.limitKnown;
        survey.rated.push_back(state.plate.flammableRated.value_or(false));
        for (Finding& finding : use.findings) {
            if (finding.severity >= Severity::caution) {
                survey.cautions.push_back(std::move(finding));
            }
        }
        if (auto caution = sensorFinding(shop, state, survey.ask.method, survey.ask.back)) {
            survey.cautions.push_back(std::move(*caution));
        }
    });
    if (!seen) {
        return seen.error();
    }
    return survey;
}

std::string neededText(const Shop& shop, const JobPlan& plan) {
    const Display display = shop.display();
    return plan.margin.milligrams() == 0
               ? display.mass(plan.expected)
               : fmt::format("{} and {} of margin", display.mass(plan.expected), display.mass(plan.margin));
}

std::string nothingSuffices(const Shop& shop, const JobPlan& plan, const PlanSurvey& survey) {
    if (plan.burnOut && survey.forBurnOuts == 0) {
        return "No cylinder is kept for gas of burn-outs, which goes into no other.";
    }
    return fmt::format("No cylinders in the shop {}{} {} of {}.",
                       plan.burnOut ? "that are kept for gas of burn-outs " : "",
                       plan.purpose != Purpose::charge ? "have lawful room for" : "may give",
                       neededText(shop, plan), survey.ask.refrigerant);
}

} // namespace tarebook
