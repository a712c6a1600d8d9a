#include "core/shop/explain.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "core/rules/fill_limit.h"
#include "core/rules/pressure_class.h"
#include "core/rules/shipping_description.h"
#include "core/shop/findings.h"
#include "core/shop/limit_source.h"
#include "core/shop/retest_of.h"

namespace tarebook {

namespace {

/// A limit in words, for a list in which every line is one.
std::string limitWords(const std::string& rule) {
    static const std::map<std::string, std::string> kWords = {
        {"fill.named-row", "Filling density of the gas"},
        {"fill.lpg", "Filling density for its gravity"},
        {"fill.listed-ratio", "Listed filling ratio"},
        {"fill.p200-formula", "Formula for gases without data"},
        {"fill.shop", "The shop's own margin"},
        {"fill.not-full-55C", "Not liquid-full at 55 °C"},
        {"fill.95-at-50C", "95 % liquid at 50 °C"},
        {"fill.not-full-60C", "Not liquid-full at 60 °C"},
        {"fill.practice-80", "80 % liquid at 25 °C"}};
    const auto words = kWords.find(rule);
    return words == kWords.end() ? rule : words->second;
}

class Explainer {
public:
    Explainer(const Shop& shop, const CylinderState& state, Date on, std::string contents)
        : m_shop(shop), m_state(state), m_on(on), m_contents(std::move(contents)) {}

    std::vector<Finding> explain() {
        m_findings = findingsOf(m_shop, m_state, m_on);
        addRetest();
        addLimits();
        addShipping();
        std::stable_sort(m_findings.begin(), m_findings.end(), [](const Finding& one, const Finding& other) {
            return one.severity > other.severity;
        });
        for (Finding& finding : m_findings) {
            finding.subject = Account::cylinder(m_state.plate.serial).text();
        }
        return std::move(m_findings);
    }

private:
    /// What is open says it already, mostly in more words.
    [[nodiscard]] bool told(const std::string& rule) const {
        return std::any_of(m_findings.begin(), m_findings.end(),
                           [&](const Finding& finding) { return finding.rule == rule; });
    }

    void add(std::string rule, Severity severity, std::string headline) {
        Finding finding;
        finding.rule = std::move(rule);
        finding.severity = severity;
        finding.headline = std::move(headline);
        finding.edition = m_shop.rulebookOn(m_on).edition();
        m_findings.push_back(std::move(finding));
    }

    void addRetest() {
        const auto verdict = retestOf(m_shop, m_state, m_on);
        if (!verdict) {
            add("retest.no-answer", Severity::caution,
                fmt::format("No due month: {}.", verdict.error().wrong));
            m_findings.back().remedy = verdict.error().right;
            return;
        }
        for (const Finding& finding : verdict.value().findings) {
            if (!told(finding.rule)) {
                m_findings.push_back(finding);
            }
        }
    }

    void addLimits() {
        if (m_contents.empty()) {
            add("fill.no-answer", Severity::note,
                "No limit: empty, and meant for no one refrigerant; it depends on what goes in.");
            citeNoLimit({});
            return;
        }
        const auto states = m_shop.limitSourceOn(m_on).states(m_contents);
        if (!states) {
            add("fill.no-answer", Severity::caution, fmt::format("No limit: {}.", states.error().wrong));
            m_findings.back().remedy = states.error().right;
            citeNoLimit({});
            return;
        }
        addPressure(*states.value());
        const auto limit =
            fillLimit(m_shop.limitSourceOn(m_on).rules(), *states.value(), m_state.plate.specification,
                      m_state.plate.waterCapacity, m_shop.limitSourceOn(m_on).margins());
        if (!limit) {
            add("fill.no-answer", Severity::refusal, fmt::format("No limit: {}.", limit.error().wrong));
            m_findings.back().remedy = limit.error().right;
            citeNoLimit(states.value()->contents);
            return;
        }
        for (const LimitCandidate& candidate : limit.value().candidates) {
            addCandidate(candidate, limit.value());
        }
    }

    /// Where it stands why there is no limit: that the cylinder has one life, the row of the gas, or else the
    /// first condition that a limit would have to meet.
    void citeNoLimit(const Contents& contents) {
        const Specification& mark = m_state.plate.specification;
        if (!mark.refillable()) {
            for (const RuleRow& row : m_shop.rulebookOn(m_on).table("requalification")->rows) {
                if (row.cell("rule") == "retest.one-life") {
                    cite({row.section, row.firmness, 0, row.place});
                    return;
                }
            }
        }
        const FillRules& rules = m_shop.limitSourceOn(m_on).rules();
        const auto citeGas = [&](const auto& rows) {
            const auto its = std::find_if(rows.begin(), rows.end(), [&](const auto& row) {
                return !row.contents.empty() && sameGas(row.contents, contents);
            });
            if (its != rows.end()) {
                cite(its->source);
            }
            return its != rows.end();
        };
        if (!contents.empty() && (mark.metricTestMark() ? citeGas(rules.ratios) : citeGas(rules.densities))) {
            return;
        }
        for (const FillCondition& condition : rules.conditions) {
            if (condition.kind == ConditionKind::liquid && condition.covers(mark)) {
                cite(condition.source);
                return;
            }
        }
        cite({"no row of the rulebook is for this mark", Firmness::verified});
    }

    void cite(const RowSource& source) {
        m_findings.back().citation = source.section;
        m_findings.back().firmness = source.firmness;
        m_findings.back().row = source.place;
    }

    void addPressure(const LiquidStates& states) {
        const PressureVerdict verdict =
            pressureClass(m_shop.limitSourceOn(m_on).rules(), states, m_state.plate.specification);
        if (told(verdict.rule) || told("pressure.thin")) {
            return;
        }
        const Display display = m_shop.display();
        std::string headline = verdict.suits ? "Suits the pressure of these contents" : "Does not suit them";
        if (verdict.compared && verdict.limit) {
            const auto margin =
                GaugePressure::fromKilopascal(verdict.limit->kilopascal() - verdict.compared->kilopascal());
            headline += fmt::format(": {} against {}, margin {}", display.pressure(*verdict.compared),
                                    display.pressure(*verdict.limit), display.pressure(margin));
        }
        add(verdict.rule, verdict.suits ? Severity::note : Severity::danger, headline + ".");
        m_findings.back().working = {verdict.working};
        m_findings.back().citation = verdict.citation;
        m_findings.back().firmness = verdict.firmness;
        m_findings.back().row = verdict.place;
    }

    void addCandidate(const LimitCandidate& candidate, const FillLimit& limit) {
        const Display display = m_shop.display();
        const Mass above = Mass::fromMilligrams(candidate.net.milligrams() - limit.net.milligrams());
        const std::string headline =
            fmt::format("{}: at most {}{}", limitWords(candidate.rule), display.limit(candidate.net),
                        candidate.rule == limit.governingRule
                            ? fmt::format("; this one governs, stop at {} gross.",
                                          display.limit(limit.grossToStopAt(m_state.plate.tare)))
                            : fmt::format(", {} above the one that governs.", display.mass(above)));
        add(candidate.rule, Severity::note, headline);
        Finding& finding = m_findings.back();
        finding.working = {candidate.working};
        if (candidate.rule == limit.governingRule) {
            finding.working.insert(finding.working.end(), limit.remarks.begin(), limit.remarks.end());
            const Mass inside = m_state.content.total();
            const Mass room = limit.roomLeft(inside);
            finding.working.push_back(
                fmt::format("{} inside, room left {}", display.mass(inside), display.limit(room)));
        }
        finding.citation = candidate.citation;
        finding.firmness = candidate.firmness;
        finding.row = candidate.place;
        finding.overrulable = !candidate.lawful;
    }

    void addShipping() {
        const std::string inside = contentsText(m_state.content);
        if (inside.empty()) {
            return;
        }
        const auto contents = m_shop.catalogue().contents(inside);
        const auto description =
            contents ? shippingDescription(m_shop.rulebookOn(m_on), m_shop.catalogue(), contents.value())
                     : Result<ShippingDescription>(contents.error());
        if (!description) {
            add("ship.no-answer", Severity::caution,
                fmt::format("No shipping description: {}.", description.error().wrong));
            m_findings.back().remedy = description.error().right;
            return;
        }
        const ShippingDescription& found = description.value();
        add("ship.description", Severity::note,
            found.regulated ? fmt::format("Described for shipping as {}.", found.text)
                            : "Not a dangerous good of Class 2: no UN number may be printed.");
        m_findings.back().working = found.working;
        if (!found.labels.empty()) {
            m_findings.back().working.push_back("labels " + found.labels);
        }
        m_findings.back().citation = found.citation;
        m_findings.back().firmness = found.firmness;
    }

    const Shop& m_shop;
    const CylinderState& m_state;
    Date m_on;
    std::string m_contents;
    std::vector<Finding> m_findings;
};

} // namespace

std::vector<Finding> explanation(const Shop& shop, const CylinderState& state, Date on,
                                 const std::string& planned) {
    const std::string& intended = state.plate.refrigerant;
    const std::string contents = !planned.empty()         ? planned
                                 : !state.content.empty() ? contentsText(state.content)
                                 : intended == "mixed"    ? std::string()
                                                          : intended;
    return Explainer(shop, state, on, contents).explain();
}

Result<QuickFigures> quickFigures(const Shop& shop, const TalkedOf& cylinder, Date on) {
    const auto contents = shop.catalogue().contents(cylinder.contents);
    if (!contents) {
        return contents.error();
    }
    CylinderState state;
    state.plate = cylinder.plate;
    state.recoveryUse = cylinder.recoveryUse;
    if (cylinder.inside && cylinder.inside->milligrams() > 0) {
        // The text is one gas here: contentsText() gives it back as it was written.
        const GasState gas = cylinder.recoveryUse ? GasState::recovered : GasState::unused;
        state.content = Holding(Gas{cylinder.contents, "", gas}, *cylinder.inside);
        if (cylinder.lastFilled) {
            state.lastFilled = shop.zone().startOf(*cylinder.lastFilled);
        }
    }
    const auto verdict = retestOf(shop, state, on);
    if (!verdict) {
        return verdict.error();
    }
    return QuickFigures{limitsFor(shop, state, cylinder.contents, on), verdict.value().dueText(),
                        verdict.value().fillAllowed, verdict.value().shipAllowed,
                        explanation(shop, state, on, cylinder.contents)};
}

} // namespace tarebook
