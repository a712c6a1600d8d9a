#include <algorithm>

#include <fmt/format.h>

#include "core/shop/counter.h"
#include "core/shop/day_checks.h"
#include "core/shop/findings.h"
#include "core/shop/names.h"
#include "core/shop/not_here.h"
#include "core/shop/owners_together.h"
#include "core/shop/plan_rules.h"
#include "core/shop/possible_mass.h"

namespace tarebook {

Review review(Shop& shop, const Decant& plan) {
    const auto source = stateNamed(shop, plan.from);
    const auto target = stateNamed(shop, plan.to);
    if (!source || !target) {
        return cannotBe(!source ? plan.from : plan.to, !source ? source.error() : target.error());
    }
    if (plan.from == plan.to || plan.mass.milligrams() <= 0) {
        return cannotBe(plan.from, plan.from == plan.to
                                       ? Error{"a cylinder cannot be decanted into itself", "name another"}
                                       : Error{"nothing is decanted", "give the mass, as 3.2 lb"});
    }
    const Movement movement{Account::cylinder(plan.from), Account::cylinder(plan.to), plan.mass, {}, {}, {}};
    for (const CylinderState* state : {&source.value(), &target.value()}) {
        if (const auto wrong = impossibleDay(shop, *state, plan.occurred)) {
            return cannotBe(state->plate.serial, *wrong);
        }
    }
    if (const auto wrong = impossibleMass(shop, source.value(), {}, movement)) {
        return cannotBe(plan.from, *wrong);
    }
    const Display display = shop.display();
    Review review;
    const Holding& content = source.value().content;
    if (content.total() < plan.mass) {
        review.findings.push_back(planFinding(
            "cylinder:" + plan.from, "plan.empty", Severity::refusal,
            fmt::format("{} holds only {}.", plan.from, display.mass(content.total())), "Weigh it first."));
    }
    const PlanUse use = planUse(shop, target.value(), askToDecant(content, shop.today()));
    review.findings.insert(review.findings.end(), use.findings.begin(), use.findings.end());
    if (use.fits() && use.room < plan.mass) {
        review.findings.push_back(planFinding(
            "cylinder:" + plan.to, "plan.room", Severity::refusal,
            fmt::format("{} has room for {} only.", plan.to, display.limit(use.room)), "Decant less."));
    }
    if (CylinderState after = target.value(); !content.empty()) {
        after.content.add(content.portion(plan.mass));
        if (auto together = ownersTogether(shop, after)) {
            review.findings.push_back(std::move(*together));
        }
    }
    addNotHere(shop, {source.value(), target.value()}, review.findings);
    for (const CylinderState* state : {&source.value(), &target.value()}) {
        for (Finding& finding : oddDayOf(shop, *state, movement, plan.occurred.value_or(shop.now()))) {
            review.findings.push_back(std::move(finding));
        }
    }
    std::stable_sort(review.findings.begin(), review.findings.end(), worseFirst);
    return review;
}

Recorded decant(Shop& shop, const Decant& facts, std::optional<Sequence> looked) {
    const auto source = stateNamed(shop, facts.from);
    const auto target = stateNamed(shop, facts.to);
    if (!source || !target) {
        return notRecorded(!source ? source.error() : target.error());
    }
    if (facts.from == facts.to) {
        return notRecorded({fmt::format("{} cannot be decanted into itself", facts.from), "name another"});
    }
    if (facts.mass.milligrams() <= 0) {
        return notRecorded({"nothing is decanted", "give the mass, as 3.2 lb"});
    }
    if (facts.occurred && *facts.occurred > shop.now()) {
        return notRecorded({"it cannot have happened after now", "check the day"});
    }
    for (const CylinderState* state : {&source.value(), &target.value()}) {
        if (const auto wrong = impossibleDay(shop, *state, facts.occurred)) {
            return notRecorded(*wrong);
        }
    }
    Movement movement;
    movement.source = Account::cylinder(facts.from);
    movement.target = Account::cylinder(facts.to);
    movement.mass = facts.mass;
    if (const auto wrong = impossibleMass(shop, source.value(), {}, movement)) {
        return notRecorded(*wrong);
    }
    nlohmann::json body = movementBody(movement);
    if (!facts.note.empty()) {
        body["note"] = facts.note;
    }
    std::optional<LookedAt> at;
    if (looked) {
        at = LookedAt{*looked, {movement.source.text(), movement.target.text()}};
    }
    Recorded recorded = shop.record({shop.draft(EntryKind::decanted, body, facts.occurred)}, {}, at);
    if (recorded.outrun) {
        recorded.error = {fmt::format("{} or {} was changed at another desk meanwhile", facts.from, facts.to),
                          "look at both again before it is done"};
    }
    if (recorded.ok()) {
        addNotHere(shop, {source.value(), target.value()}, recorded.findings, recorded.entries);
    }
    return recorded;
}

Recorded weigh(Shop& shop, const std::string& serial, Mass gross, std::optional<Instant> occurred) {
    CheckIn facts;
    facts.serial = serial;
    facts.grossAfter = gross;
    facts.comesBack = false;
    facts.occurred = occurred;
    return checkIn(shop, facts);
}

} // namespace tarebook
