#include "core/shop/plan_rules.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/shop/cylinder_past.h"
#include "core/shop/findings.h"
#include "core/shop/recovery_method.h"
#include "core/shop/release_duties.h"
#include "core/shop/retest_of.h"
#include "core/shop/shipping.h"
#include "core/shop/standing_fleet.h"
#include "core/shop/usual_tare.h"

namespace tarebook {

namespace {

constexpr std::string_view kLightestInUse = "R-290";

/// Gathers what speaks against a plan for one cylinder.
class PlanJudge {
public:
    PlanJudge(Shop& shop, const CylinderState& state, const PlanAsk& ask)
        : m_shop(shop), m_state(state), m_ask(ask), m_display(shop.display()),
          m_subject(Account::cylinder(state.plate.serial).text()) {}

    PlanUse judge() {
        judgeWhereabouts();
        if (m_ask.purpose == Purpose::recover) {
            judgeFilling();
        } else if (m_ask.purpose == Purpose::charge) {
            judgeCharging();
        }
        std::stable_sort(
            m_use.findings.begin(), m_use.findings.end(),
            [](const Finding& one, const Finding& other) { return one.severity > other.severity; });
        return std::move(m_use);
    }

private:
    void refuse(std::string rule, std::string headline, std::string remedy) {
        m_use.findings.push_back(planFinding(m_subject, std::move(rule), Severity::refusal,
                                             std::move(headline), std::move(remedy)));
    }

    void judgeWhereabouts() {
        const CylinderState& state = m_state;
        if (!state.holder.empty()) {
            refuse("plan.out",
                   fmt::format("Out with {}{}{}.", state.holder,
                               state.outSince ? " since " + m_shop.zone().dateOf(*state.outSince).text() : "",
                               state.job.empty() ? "" : ", job " + state.job),
                   "Check it in first, or hand it over.");
        }
        if (state.condition != Condition::serviceable) {
            refuse("plan.condition",
                   fmt::format("{}{}.", conditionSentence(state.condition),
                               state.conditionNote.empty() ? "" : ": " + state.conditionNote),
                   "Take another cylinder.");
        } else if (const std::string batch =
                       m_shop.standingFleet().setAsideFor(state.plate.serial, m_ask.ownBatch);
                   !batch.empty()) {
            refuse("plan.batch", fmt::format("Set aside for batch {}.", batch),
                   "Take another cylinder, or prepare the batch again without it.");
        }
    }

    static std::string_view conditionSentence(Condition condition) {
        switch (condition) {
        case Condition::held:
            return "Held back, not to be filled";
        case Condition::condemned:
            return "Condemned, never to be filled again";
        case Condition::away:
            return "Away";
        case Condition::retired:
            return "Left the fleet";
        case Condition::lost:
            return "Lost";
        case Condition::serviceable:
            break;
        }
        return "Serviceable";
    }

    void judgeRetest() {
        if (!m_state.plate.specification.refillable()) {
            refuse("plan.one-life", "Made for one filling: it is never refilled.",
                   "Take a refillable recovery cylinder.");
            if (const auto verdict = retestOf(m_shop, m_state, m_ask.back)) {
                cite(verdict.value());
            }
            return;
        }
        const auto verdict = retestOf(m_shop, m_state, m_ask.back);
        if (!verdict) {
            refuse("plan.retest", "Its dates do not add up: " + verdict.error().text(),
                   "Read the collar again.");
            return;
        }
        if (!verdict.value().fillAllowed && m_state.condition == Condition::serviceable) {
            refuse("plan.retest",
                   verdict.value().lastFillDay
                       ? fmt::format("Retest due {}: not to be filled since {}.", verdict.value().dueText(),
                                     verdict.value().lastFillDay->plusDays(1).text())
                       : "May not be filled: " + verdict.value().rule,
                   "Send it to be tested; take another cylinder.");
            cite(verdict.value());
        }
    }

    /// What the last finding rests on is the retest's.
    void cite(const RetestVerdict& verdict) {
        Finding& finding = m_use.findings.back();
        finding.citation = verdict.citation;
        finding.firmness = verdict.firmness;
        finding.edition = m_shop.rulebookOn(m_ask.back).edition();
        finding.working = verdict.findings.front().working;
        // Of several the one that gave the verdict its citation.
        const auto its = std::find_if(verdict.findings.rbegin(), verdict.findings.rend(),
                                      [&](const Finding& one) { return one.citation == verdict.citation; });
        finding.row = its == verdict.findings.rend() ? verdict.findings.front().row : its->row;
    }

    void judgeFilling() {
        judgeRetest();
        if (m_ask.refrigerant.empty()) {
            return;
        }
        judgeContents({m_ask.refrigerant, m_ask.gas.empty() ? contentsOf(m_ask.refrigerant) : m_ask.gas,
                       m_ask.burnOut});
        judgeOwner();
        if (auto start = startFinding(m_shop, m_state, m_ask.method, m_ask.back)) {
            m_use.findings.push_back(std::move(*start));
        }
        const Limits limits = limitsFor(m_shop, m_state, m_ask.refrigerant, m_ask.back);
        if (!limits.known) {
            if (m_ask.refrigerant == kUnknownGas) {
                judgeUnknown();
            } else if (m_state.plate.specification.refillable()) {
                refuse("plan.room", "No limit is known: " + limits.problem, "Take another cylinder.");
            }
            return;
        }
        judgePressure(limits);
        m_use.room = limits.room;
        m_use.grossToStop = limits.grossToStop;
        if (limits.room.milligrams() <= 0) {
            refuse("plan.room",
                   fmt::format("Full: {} inside, limit {}.", m_display.mass(m_state.content.total()),
                               m_display.limit(limits.net)),
                   "Take another cylinder.");
            m_use.findings.back().working = limits.working;
        }
    }

    /// Of gas that nobody knows neither limit nor pressure can be told. Room is reckoned with the lowest
    /// density that could be present (common practice, from memory), that of propane, so that enough go.
    void judgeUnknown() {
        m_use.limitKnown = false;
        const Limits light = limitsFor(m_shop, m_state, std::string(kLightestInUse), m_ask.back);
        m_use.room = light.room;
        if (m_state.plate.specification.refillable() && (!light.known || light.room.milligrams() <= 0)) {
            refuse("plan.room",
                   light.known ? "Nothing more goes in, however light it is."
                               : "No limit is known: " + light.problem,
                   "Take another cylinder.");
        }
    }

    [[nodiscard]] Contents contentsOf(const std::string& text) const {
        const auto contents = m_shop.catalogue().contents(text);
        return contents ? contents.value() : Contents{};
    }

    void judgePressure(const Limits& limits) {
        if (!limits.pressureSuits) {
            refuse("plan.pressure",
                   limits.pressureLimit.kilopascal() > 0 && limits.pressureComparedAt &&
                           limits.pressureCompared > limits.pressureLimit
                       ? fmt::format("Pressure class too low for {}: {} allowed, {} at {:.0f} °C.",
                                     m_ask.refrigerant, m_display.pressure(limits.pressureLimit),
                                     m_display.pressure(limits.pressureCompared),
                                     limits.pressureComparedAt->celsius())
                       : fmt::format("Not for {}: {}", m_ask.refrigerant, limits.pressureWorking),
                   "Take a cylinder of a higher class.");
            m_use.findings.back().working = {limits.pressureWorking};
            citePressure(limits);
        } else if (limits.pressureThin) {
            m_use.findings.push_back(
                planFinding(m_subject, "plan.pressure-thin", Severity::caution,
                            "Pressure class suits by a thin margin: " + limits.pressureWorking,
                            "Compare with the gas supplier's table."));
            citePressure(limits);
        }
    }

    void citePressure(const Limits& limits) {
        Finding& finding = m_use.findings.back();
        finding.citation = limits.pressureCitation;
        finding.firmness = limits.pressureFirmness;
        finding.row = limits.pressureRow;
        finding.edition = m_shop.rulebookOn(m_ask.back).edition();
    }

    void judgeContents(const IncomingGas& gas) {
        if (m_state.content.empty() && !m_state.evacuated && m_state.plate.refrigerant != kMixedTag) {
            m_use.lastHeld = m_shop.standingFleet().lastHeld(m_state.plate.serial);
        }
        const ContentsRules& rules = m_shop.limitSourceOn(m_ask.back).contentsRules();
        OnTop verdict = onTop(rules, pastOf(m_state, m_use.lastHeld), gas, m_subject);
        m_use.partFilled = verdict.partFilled;
        m_use.evacuateFirst = verdict.evacuateFirst;
        for (Finding& finding : verdict.findings) {
            m_use.findings.push_back(std::move(finding));
        }
        if (!m_ask.burns.value_or(true)) {
            return;
        }
        if (auto burns = flammableFinding(rules, m_shop.catalogue(), pastOf(m_state), gas, m_subject)) {
            m_use.findings.push_back(std::move(*burns));
        }
    }

    /// Gas that never was used, or was reclaimed, is spoilt by used gas: used in part is used (40 CFR
    /// 82.154(d)), and may go into one owner's equipment only.
    void judgeOwner() {
        for (const auto& [gas, milligrams] : m_state.content.parts()) {
            const bool used = isUsed(gas.state);
            if ((used || m_ask.clean) && gas.owner != m_ask.owner) {
                refuse("plan.owner",
                       fmt::format("Holds {} that belongs to {}.", gas.refrigerant,
                                   gas.owner.empty() ? "the shop" : gas.owner),
                       "Keep owners apart: take another cylinder.");
            } else if (used == m_ask.clean) {
                refuse("plan.clean-gas",
                       fmt::format("Holds {} of {} {}: {}.", m_display.mass(Mass::fromMilligrams(milligrams)),
                                   gasStateWord(gas.state), gas.refrigerant,
                                   used ? "new or reclaimed gas on top of it counts as used"
                                        : "recovered gas on top makes all of it used"),
                       "Take an empty one, or one that holds the same in the same state.");
                (void)citeDuty(m_shop, m_state.content, "reuse", m_use.findings.back());
            } else {
                continue;
            }
            m_use.partFilled = false;
            return;
        }
    }

    void judgeCharging() {
        m_use.room = m_state.content.total();
        m_use.partFilled = true;
        if (m_state.content.empty()) {
            refuse("plan.empty", "Nothing inside.", "Take a cylinder that holds what is to be charged.");
            return;
        }
        const auto parts = m_state.content.byRefrigerant();
        if (!m_ask.refrigerant.empty() && (parts.size() != 1 || !parts.contains(m_ask.refrigerant))) {
            refuse("plan.contents",
                   fmt::format("Holds {}, not {}.", contentName(m_state.content), m_ask.refrigerant),
                   "Take a cylinder with the system's refrigerant.");
        }
        judgeCarriage();
        judgeRoad();
        const std::string foreign = foreignGas(m_shop, m_state.content, m_ask.owner,
                                               m_ask.namesLots ? m_state.plate.serial : std::string());
        if (!foreign.empty()) {
            refuse("plan.used-gas", foreign,
                   "Charge from new or reclaimed gas, or from what came out of this owner's equipment.");
            (void)citeDuty(m_shop, m_state.content, "reuse", m_use.findings.back());
        }
    }

    /// To charge from it, it has to travel as it stands.
    void judgeCarriage() {
        const auto verdict = retestOf(m_shop, m_state, m_ask.back);
        if (!verdict || m_state.condition != Condition::serviceable ||
            (verdict.value().shipAllowed && !verdict.value().onlyToTester && !verdict.value().onlyToEmpty)) {
            return;
        }
        refuse("plan.carriage",
               verdict.value().onlyToEmpty ? "Carried only to have what is in it reprocessed or disposed of."
               : verdict.value().onlyToTester ? "Carried only for testing or disposal."
                                              : "It may not be offered for transport as it stands.",
               "Take another cylinder; the card says what this one needs.");
        cite(verdict.value());
    }

    /// The same question that the van and a batch ask: overfilled, leaking, of too low a class.
    void judgeRoad() {
        const TransportVerdict verdict =
            m_use.fits() ? transportOf(m_shop, m_state, m_ask.back) : TransportVerdict{};
        if (verdict.reason.empty()) {
            return;
        }
        refuse("plan.carriage", verdict.reason, verdict.remedy);
        for (const Finding& its : lastingFindings(m_shop, m_state)) {
            if (its.headline == verdict.reason) {
                Finding& finding = m_use.findings.back();
                finding.citation = its.citation;
                finding.firmness = its.firmness;
                finding.edition = its.edition;
                finding.row = its.row;
                finding.working = its.working;
                return;
            }
        }
    }

    Shop& m_shop;
    const CylinderState& m_state;
    const PlanAsk& m_ask;
    Display m_display;
    std::string m_subject;
    PlanUse m_use;
};

} // namespace

bool PlanUse::fits() const {
    return std::none_of(findings.begin(), findings.end(),
                        [](const Finding& finding) { return finding.severity >= Severity::refusal; });
}

PlanUse planUse(Shop& shop, const CylinderState& state, const PlanAsk& ask) {
    PlanUse use = PlanJudge(shop, state, ask).judge();
    const bool explained =
        std::find(state.overruled.begin(), state.overruled.end(), kUnusualTare) != state.overruled.end();
    if (ask.purpose != Purpose::recover || explained) {
        return use;
    }
    if (auto unusual = unusualTareFinding(shop, state.plate)) { // no weight to stop at can be told
        unusual->severity = Severity::refusal;
        use.findings.push_back(std::move(*unusual));
    }
    return use;
}

Finding planFinding(const std::string& subject, std::string rule, Severity severity, std::string headline,
                    std::string remedy) {
    Finding finding;
    finding.rule = std::move(rule);
    finding.severity = severity;
    finding.subject = subject;
    finding.headline = std::move(headline);
    finding.remedy = std::move(remedy);
    finding.citation = "common practice";
    finding.firmness = Firmness::practice;
    return finding;
}

Review cannotBe(const std::string& serial, const Error& error) {
    Review review;
    review.findings.push_back(
        planFinding("cylinder:" + serial, "entry.impossible", Severity::refusal, error.wrong, error.right));
    return review;
}

} // namespace tarebook
