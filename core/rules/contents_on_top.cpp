#include "core/rules/contents_on_top.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

namespace tarebook {

namespace {

constexpr const char* kNoIgnition = "No ignition source, ventilate, follow the local code.";

std::string orNothing(const std::string& text) {
    return text.empty() ? "nothing" : text;
}

/// What was looked at, and where it comes from.
std::vector<std::string> inputs(const CylinderPast& cylinder, const IncomingGas& gas) {
    std::vector<std::string> lines;
    if (!cylinder.inside.empty()) {
        lines.push_back(fmt::format("inside: {} (the books)", cylinder.insideName));
    } else {
        lines.push_back(
            fmt::format("inside: empty; held last: {} (the books); {}", orNothing(cylinder.lastHeld),
                        cylinder.evacuated ? "evacuated since" : "no evacuation since on record"));
    }
    lines.push_back(fmt::format("kept for: {} (the register)", orNothing(cylinder.tag)));
    lines.push_back(
        fmt::format("to go in: {}{} (the plan)", gas.refrigerant, gas.burnOut ? ", from a burn-out" : ""));
    return lines;
}

class Judge {
public:
    Judge(const ContentsRules& rules, const CylinderPast& cylinder, const IncomingGas& gas,
          const std::string& subject)
        : m_rules(rules), m_cylinder(cylinder), m_gas(gas), m_subject(subject) {}

    OnTop judge() {
        judgeBurnOut();
        if (m_cylinder.inside.empty()) {
            judgeEmpty();
        } else {
            judgeContents();
        }
        return std::move(m_onTop);
    }

private:
    void add(const RowSource& source, const char* rule, Severity severity, std::string headline,
             std::string remedy) {
        m_onTop.findings.push_back(
            m_rules.finding(source, rule, severity, m_subject, std::move(headline), std::move(remedy)));
        m_onTop.findings.back().working = inputs(m_cylinder, m_gas);
    }

    void judgeBurnOut() {
        if (m_gas.burnOut && !m_cylinder.burnOut) {
            add(m_rules.burnOut, "plan.burn-out", Severity::refusal,
                "Gas from a burn-out goes apart: this cylinder is not kept for it.",
                "Take a cylinder marked for burn-out; a fresh filter-drier before the machine.");
        } else if (!m_gas.burnOut && m_cylinder.burnOut) {
            add(m_rules.burnOut, "plan.burn-out", Severity::refusal,
                "Kept for gas from burn-outs: acid and oil in it would spoil what goes in.",
                "Take another cylinder.");
        }
    }

    void judgeContents() {
        const bool same = m_cylinder.inside.size() == 1 && m_cylinder.inside.front() == m_gas.refrigerant;
        const bool unknown = m_gas.refrigerant == kUnknownGas;
        if ((!same || unknown) && m_cylinder.tag != kMixedTag) {
            add(unknown ? m_rules.unknownGas : m_rules.sameGas, "plan.contents", Severity::refusal,
                fmt::format("Holds {}{}.", m_cylinder.insideName,
                            same ? " already: an unknown gas goes only into a clean empty"
                                 : ": " + m_gas.refrigerant + " must not go on top"),
                "Take a clean empty, or one with the same refrigerant.");
        }
        m_onTop.partFilled = same;
    }

    void judgeEmpty() {
        const std::string& tag = m_cylinder.tag;
        if (tag == kMixedTag) {
            return;
        }
        if (m_cylinder.evacuated) {
            if (!tag.empty() && tag != m_gas.refrigerant) {
                add(m_rules.change, "plan.tag", Severity::note,
                    fmt::format("Evacuated, but its tag says {}.", tag),
                    "Change the tag before it goes out.");
            }
            return;
        }
        const std::string& rest = m_cylinder.lastHeld.empty() ? tag : m_cylinder.lastHeld;
        if (rest == m_gas.refrigerant && rest != kUnknownGas) {
            return;
        }
        if (rest.empty()) {
            m_onTop.evacuateFirst = true;
            add(m_rules.change, "plan.evacuation", Severity::caution,
                "Evacuate it before it is filled: nothing says what was in it, or that it was evacuated.",
                "Enter the evacuation, and it is a clean empty; a new one comes with a holding charge and is "
                "evacuated too.");
            return;
        }
        add(m_rules.change, "plan.evacuation", Severity::refusal,
            fmt::format("{} {} and has no evacuation on record.",
                        m_cylinder.lastHeld.empty() ? "Was kept for" : "Held", rest),
            "Evacuate it, enter that, and it is a clean empty.");
    }

    const ContentsRules& m_rules;
    const CylinderPast& m_cylinder;
    const IncomingGas& m_gas;
    const std::string& m_subject;
    OnTop m_onTop;
};

/// Shares by mass of the substances that burn: hydrocarbons first, the others second.
std::array<double, 2> burningShares(const Catalogue& catalogue, const Contents& contents) {
    std::array<double, 2> shares{};
    for (const Component& part : contents) {
        if (flammabilityOf(catalogue, {{part.designation, 1.0}}) == Flammability::yes) {
            const RefrigerantFacts* facts = catalogue.facts(part.designation);
            shares.at(facts != nullptr && facts->refrigerantClass == "HC" ? 0 : 1) += part.massShare;
        }
    }
    return shares;
}

} // namespace

OnTop onTop(const ContentsRules& rules, const CylinderPast& cylinder, const IncomingGas& gas,
            const std::string& subject) {
    return Judge(rules, cylinder, gas, subject).judge();
}

bool asksForRated(const ContentsRules& rules, const Catalogue& catalogue, const Contents& contents) {
    const Flammability known = flammabilityOf(catalogue, contents);
    if (known != Flammability::unknown || contents.empty()) {
        return known == Flammability::yes;
    }
    const auto reaches = [](double share, const std::optional<Figure>& least) {
        return least ? share >= least->value : share > 0;
    };
    const auto [hydrocarbons, others] = burningShares(catalogue, contents);
    return reaches(hydrocarbons, rules.flammableHydrocarbon) || reaches(others, rules.flammableOther);
}

std::optional<Burning> burningOf(const ContentsRules& rules, const Catalogue& catalogue,
                                 const IncomingGas& gas) {
    if (!asksForRated(rules, catalogue, gas.contents)) {
        return {};
    }
    const bool whole = flammabilityOf(catalogue, gas.contents) == Flammability::yes;
    const auto [hydrocarbons, others] = burningShares(catalogue, gas.contents);
    const auto decides = [](double share, const std::optional<Figure>& least) {
        return least && share >= least->value;
    };
    Burning burning;
    burning.says = gas.refrigerant + (whole ? " burns" : " may burn");
    burning.source = whole                                               ? rules.flammable
                     : decides(hydrocarbons, rules.flammableHydrocarbon) ? rules.flammableHydrocarbon->source
                     : decides(others, rules.flammableOther)             ? rules.flammableOther->source
                                                                         : rules.flammable;
    burning.working = {
        fmt::format("to go in: {} (the plan)", gas.refrigerant),
        whole
            ? "safety group of the catalogue: its kind burns (2L, 2 or 3)"
            : fmt::format("by mass {:.1f} % of hydrocarbons and {:.1f} % of others that burn; as a whole in "
                          "no table",
                          100 * hydrocarbons, 100 * others)};
    return burning;
}

std::string ratedLine(const std::optional<bool>& rated) {
    return fmt::format("rated for flammable gas: {} (the register)", !rated   ? "nothing on record"
                                                                     : *rated ? "yes"
                                                                              : "no");
}

std::optional<Finding> flammableFinding(const ContentsRules& rules, const Catalogue& catalogue,
                                        const CylinderPast& cylinder, const IncomingGas& gas,
                                        const std::string& subject) {
    auto burning = burningOf(rules, catalogue, gas);
    if (!burning) {
        return {};
    }
    const RowSource& source = burning->source;
    Finding finding =
        !cylinder.flammableRated
            ? rules.finding(source, "plan.flammable", Severity::caution, subject,
                            burning->says + ": cylinder and recovery machine must be rated for it.",
                            kNoIgnition)
        : *cylinder.flammableRated
            ? rules.finding(source, "plan.flammable", Severity::note, subject,
                            burning->says +
                                ": the cylinder is rated for it, the recovery machine must be too.",
                            kNoIgnition)
            : rules.finding(source, "plan.flammable", Severity::refusal, subject,
                            burning->says + ", and this cylinder is not rated for flammable gas.",
                            "Take a cylinder that is rated for it.");
    finding.working = std::move(burning->working);
    finding.working.push_back(ratedLine(cylinder.flammableRated));
    return finding;
}

} // namespace tarebook
