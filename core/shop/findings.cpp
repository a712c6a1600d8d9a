#include "core/shop/findings.h"

#include <algorithm>
#include <tuple>

#include <fmt/format.h>

#include "core/rules/fill_limit.h"
#include "core/rules/pressure_class.h"
#include "core/shop/burning.h"
#include "core/shop/cylinder_past.h"
#include "core/shop/day_checks.h"
#include "core/shop/finding_json.h"
#include "core/shop/heel.h"
#include "core/shop/not_here.h"
#include "core/shop/owners_together.h"
#include "core/shop/retest_of.h"
#include "core/shop/unexplained.h"
#include "core/shop/usual_tare.h"

namespace tarebook {

namespace {

std::string subjectOf(const CylinderState& state) {
    return Account::cylinder(state.plate.serial).text();
}

Finding practice(const CylinderState& state, std::string rule, Severity severity, std::string headline,
                 std::string remedy) {
    Finding finding;
    finding.rule = std::move(rule);
    finding.severity = severity;
    finding.subject = subjectOf(state);
    finding.headline = std::move(headline);
    finding.citation = "common practice";
    finding.firmness = Firmness::practice;
    finding.remedy = std::move(remedy);
    return finding;
}

bool inFleet(const CylinderState& state) {
    return state.condition != Condition::retired && state.condition != Condition::away;
}

/// What is inside, and whether it may be together and in this cylinder.
void addContents(const Shop& shop, const CylinderState& state, std::vector<Finding>& findings) {
    const ContentsRules& rules = shop.limitSource().contentsRules();
    const auto put = [&](std::optional<Finding> finding) {
        if (finding) {
            findings.push_back(std::move(*finding));
        }
    };
    if (!state.mixedAccepted && isMixed(shop, state.content)) {
        const Display display = shop.display();
        std::vector<std::string> origins;
        for (const auto& [gas, milligrams] : state.content.parts()) {
            origins.push_back(fmt::format(
                "{} {}, {}, owner {}", display.mass(Mass::fromMilligrams(milligrams)), gas.refrigerant,
                gasStateWord(gas.state), gas.owner.empty() ? "the shop" : gas.owner));
        }
        put(mixtureFinding(rules, gasesIn(state.content), shop.settings().own.reclaimerShare, origins,
                           subjectOf(state)));
    }
    const CylinderPast past = pastOf(state);
    put(otherThanKeptFor(rules, past, subjectOf(state)));
    if (past.flammableRated) {
        const auto contents = shop.catalogue().contents(contentsText(state.content));
        put(flammableInside(rules, past, contents && asksForRated(rules, shop.catalogue(), contents.value()),
                            subjectOf(state)));
    } else {
        put(burningUnrated(shop, state));
    }
}

void addFilling(const Shop& shop, const CylinderState& state, std::vector<Finding>& findings) {
    const std::string contents = contentsText(state.content);
    if (contents.empty() || contents.find(kUnknownGas) != std::string::npos) {
        return;
    }
    LimitSource& source = shop.limitSource();
    const auto states = source.states(contents);
    if (!states) {
        return;
    }
    const PressureVerdict pressure =
        pressureClass(source.rules(), *states.value(), state.plate.specification);
    for (Finding& finding : pressure.findings(subjectOf(state))) {
        findings.push_back(std::move(finding));
    }
    const auto limit = fillLimit(source.rules(), *states.value(), state.plate.specification,
                                 state.plate.waterCapacity, source.margins());
    if (!limit) {
        return;
    }
    if (auto over =
            overfillFinding(limit.value(), state.content.total(), subjectOf(state), source.rules().edition)) {
        findings.push_back(std::move(*over));
    }
}

void addWeight(const Shop& shop, const CylinderState& state, std::vector<Finding>& findings) {
    if (!state.lastReading || !state.lastReading->beyond) {
        return;
    }
    const Reading& reading = *state.lastReading;
    const Display display = shop.display();
    const bool less = reading.difference.milligrams() < 0;
    Finding finding =
        practice(state, "weight.differs", Severity::caution,
                 fmt::format("The scale showed {} {} than the books.",
                             display.mass(Mass::fromMilligrams(std::abs(reading.difference.milligrams()))),
                             less ? "less" : "more"),
                 "Weigh it again; look for a release, an unrecorded job, a wrong tare or another cylinder.");
    finding.working = {
        fmt::format(
            "gross {} - tare {} = {}", display.mass(reading.gross), display.mass(reading.tare),
            display.mass(Mass::fromMilligrams(reading.gross.milligrams() - reading.tare.milligrams()))),
        fmt::format("the books said {}", display.mass(reading.book)),
        fmt::format("scale and tare together may be off by {}",
                    display.mass(shop.settings().weighingTolerance)),
        fmt::format("posted to variance by entry {}", reading.entry)};
    finding.overrulable = true;
    findings.push_back(finding);
}

void addCondition(const CylinderState& state, std::vector<Finding>& findings) {
    if (state.condition == Condition::lost) {
        findings.push_back(
            practice(state, "custody.lost", Severity::caution,
                     "Lost: " + (state.conditionNote.empty() ? "no note" : state.conditionNote),
                     "Look for it; enter it as found, or retire it."));
    }
}

/// Of the retest rules only what does not depend on the day asked for.
void addLateFilling(const Shop& shop, const CylinderState& state, std::vector<Finding>& findings) {
    if (state.fitness == Condition::condemned && state.content.empty()) {
        return; // out of use and harmless: nothing is left to do
    }
    const auto verdict = retestOf(shop, state, shop.today());
    if (!verdict) {
        return;
    }
    for (Finding finding : verdict.value().findings) {
        const bool dayBound = finding.rule == "retest.overdue" || finding.rule == "retest.due-soon" ||
                              finding.rule == "retest.never-refilled" || finding.severity <= Severity::note;
        if (!dayBound) {
            finding.subject = subjectOf(state);
            findings.push_back(std::move(finding));
        }
    }
}

void dropOverruled(const CylinderState& state, std::vector<Finding>& findings) {
    std::erase_if(findings, [&](const Finding& finding) {
        return finding.overrulable && std::find(state.overruled.begin(), state.overruled.end(),
                                                finding.rule) != state.overruled.end();
    });
}

void addRetestDate(const Shop& shop, const CylinderState& state, Date on, std::vector<Finding>& findings) {
    const auto verdict = retestOf(shop, state, on);
    if (!verdict || !verdict.value().lastFillDay) {
        return;
    }
    const Date last = *verdict.value().lastFillDay;
    Finding finding;
    finding.subject = subjectOf(state);
    finding.citation = verdict.value().citation;
    finding.edition = shop.rulebookOn(on).edition();
    finding.firmness = verdict.value().firmness;
    if (!verdict.value().findings.empty()) {
        finding.working = verdict.value().findings.front().working;
        finding.row = verdict.value().findings.front().row;
    }
    if (on > last) {
        finding.rule = "retest.overdue";
        finding.severity = Severity::refusal;
        finding.headline = fmt::format("Retest was due {}: not filled or topped up since {}.",
                                       verdict.value().dueText(), last.plusDays(1).text());
        finding.remedy =
            state.content.empty() ? "Send it to be tested." : "Empty it and send it to be tested.";
    } else if (verdict.value().due &&
               on.plusDays(shop.settings().retestNoticeDays) >= Date::firstOf(*verdict.value().due)) {
        finding.rule = "retest.due-soon";
        finding.severity = Severity::caution;
        finding.headline = fmt::format("Retest due {}: {} days left to fill it.", verdict.value().dueText(),
                                       last.dayNumber() - on.dayNumber());
        finding.remedy = "Plan the test before it goes out again.";
    } else {
        return;
    }
    findings.push_back(finding);
}

void addTimeOut(const Shop& shop, const CylinderState& state, Date on, std::vector<Finding>& findings) {
    if (!state.outSince) {
        return;
    }
    const Date since = shop.zone().dateOf(*state.outSince);
    const int days = on.dayNumber() - since.dayNumber();
    if (days <= shop.settings().outDays) {
        return;
    }
    Finding finding = practice(state, "custody.out-long", Severity::caution,
                               fmt::format("With {} for {} days, since {}{}.", state.holder, days,
                                           since.text(), state.job.empty() ? "" : ", job " + state.job),
                               "Call it back, or note why it stays out.");
    finding.citation = fmt::format("the shop's own setting: {} days", shop.settings().outDays);
    findings.push_back(finding);
}

} // namespace

bool isMixed(const Shop& shop, const Holding& content) {
    return countsAsMixed(shop.limitSource().contentsRules(), gasesIn(content));
}

std::string excessText(const Display& display, Mass room) {
    const std::string shown = display.limit(room);
    return shown.starts_with('-') ? shown.substr(1) : display.limit(Mass());
}

bool worseFirst(const Finding& one, const Finding& other) {
    return std::tie(other.severity, one.rule, one.subject) <
           std::tie(one.severity, other.rule, other.subject);
}

std::vector<Finding> lastingFindings(const Shop& shop, const CylinderState& state) {
    std::vector<Finding> findings;
    if (!inFleet(state)) {
        if (state.content.empty()) {
            return findings;
        }
        addNotHere(shop, {state}, findings); // what gas does in a cylinder, it does wherever that is
    }
    addFilling(shop, state, findings);
    addContents(shop, state, findings);
    addLateFilling(shop, state, findings);
    addWeight(shop, state, findings);
    if (auto unusual = unusualTareFinding(shop, state.plate)) {
        findings.push_back(std::move(*unusual));
    }
    addCondition(state, findings);
    if (auto together = ownersTogether(shop, state)) {
        findings.push_back(std::move(*together));
    }
    dropOverruled(state, findings);
    for (Finding& finding : unexplainedOf(shop, state)) { // it knows itself what was overruled since
        findings.push_back(std::move(finding));
    }
    for (Finding& finding : oddDaysOf(shop, state)) { // likewise
        findings.push_back(std::move(finding));
    }
    std::stable_sort(findings.begin(), findings.end(), worseFirst);
    return findings;
}

std::vector<Finding> dayFindings(const Shop& shop, const CylinderState& state, Date on) {
    std::vector<Finding> findings;
    if (!inFleet(state) || state.condition == Condition::condemned) {
        return findings;
    }
    addRetestDate(shop, state, on, findings);
    addTimeOut(shop, state, on, findings);
    if (auto heel = heelFinding(shop, state, on)) {
        findings.push_back(std::move(*heel));
    }
    return findings;
}

std::vector<Finding> findingsOf(const Shop& shop, const CylinderState& state, Date on) {
    std::vector<Finding> findings = lastingFindings(shop, state);
    for (Finding& finding : dayFindings(shop, state, on)) {
        findings.push_back(std::move(finding));
    }
    std::stable_sort(findings.begin(), findings.end(), worseFirst);
    return findings;
}

CylinderReview reviewOf(const Shop& shop, const CylinderState& state) {
    CylinderReview review;
    const auto verdict = retestOf(shop, state, shop.today());
    if (verdict) {
        review.due = verdict.value().dueText();
    }
    const Limits limits = limitsFor(shop, state);
    review.limitMg = limits.known ? limits.net.milligrams() : 0;
    for (const Finding& finding : lastingFindings(shop, state)) {
        review.findings.push_back({finding.rule, static_cast<int>(finding.severity), finding.headline,
                                   jsonOf(finding).dump(), state.lastEntry});
    }
    return review;
}

} // namespace tarebook
