#include "core/rules/pressure_class.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace tarebook {

namespace {

constexpr double kSourcesDifferPercent = 1; // published property data among themselves
constexpr double kExtrapolatedPercent = 2;  // LiquidStates::extrapolated

/// Numbers for the person: psig for DOT, bar for the others.
std::string written(GaugePressure pressure, const Specification& specification) {
    return specification.authority == "DOT"
               ? fmt::format("{:.1f} psig", pressure.psi())
               : fmt::format("{:.2f} bar ({:.1f} psig)", pressure.bar(), pressure.psi());
}

bool within(GaugePressure pressure, GaugePressure limit, double uncertaintyPercent) {
    const double share = std::max(uncertaintyPercent, kSourcesDifferPercent) / 100;
    return std::abs(limit.kilopascal() - pressure.kilopascal()) <= share * pressure.kilopascal();
}

GaugePressure raised(GaugePressure marked, double factor) {
    return GaugePressure::fromKilopascal(factor * marked.kilopascal());
}

struct Asked {
    const FillRules& rules;
    const LiquidStates& states;
    const Specification& specification;
    PressureVerdict verdict;

    void settle(const char* rule, bool suits, std::string working, const RowSource& source) {
        verdict.rule = rule;
        verdict.suits = suits;
        verdict.working = std::move(working);
        verdict.citation = source.section;
        verdict.firmness = source.firmness;
        verdict.place = source.place;
    }

    /// Compares and says so; `rule` and the verdict are set.
    void compare(const FillCondition& condition, AbsolutePressure bubble, double uncertaintyPercent,
                 const std::string& limitText) {
        verdict.compared = bubble.gauge();
        verdict.comparedAt = condition.at;
        const bool suits = *verdict.compared <= *verdict.limit;
        verdict.thin = within(*verdict.compared, *verdict.limit, uncertaintyPercent);
        const double margin = verdict.limit->kilopascal() - verdict.compared->kilopascal();
        settle(condition.rule.c_str(), suits,
               fmt::format("{} at {:.0f} °C against {} = {}, margin {:.2f} %",
                           written(*verdict.compared, specification), condition.at.celsius(), limitText,
                           written(*verdict.limit, specification),
                           100 * margin / verdict.compared->kilopascal()),
               condition.source);
        if (verdict.thin) {
            verdict.working += fmt::format("; that is within what property data may err ({:.1f} %)",
                                           std::max(uncertaintyPercent, kSourcesDifferPercent));
        }
    }

    void byService(const FillCondition& condition) {
        const GaugePressure marked = specification.markedPressure();
        const bool bears = marked > GaugePressure();
        if (bears) {
            verdict.limit = raised(marked, condition.factor);
        }
        const Saturation* state = states.at(condition.at);
        const std::string limit =
            fmt::format("{:.2f} x the marked {}", condition.factor, written(marked, specification));
        const AbsolutePressure* beyond = state == nullptr ? extrapolatedAt(condition.at) : nullptr;
        if (state != nullptr && bears) {
            compare(condition, state->bubble, state->bubbleUncertaintyPercent, limit);
        } else if (beyond != nullptr && bears) {
            compare(condition, *beyond, kExtrapolatedPercent, limit);
            verdict.suits = verdict.suits && !verdict.thin;
            verdict.thin = false;
            verdict.working += "; too near the critical point for the model, so extrapolated from lower "
                               "temperatures, and what is not clear counts as too high";
        }
        const NamedRow named = namedRow(rules, specification, states.contents);
        if (const auto problem = states.problemOf(rules, specification)) {
            settle(problem->rule.c_str(), false,
                   (verdict.working.empty() ? "" : verdict.working + "; ") + problem->words, problem->source);
        } else if (named.row != nullptr) {
            byNamedRow(*named.row);
        } else if (state == nullptr && beyond == nullptr) {
            settle(
                "pressure.no-liquid", false,
                "no answer, so it counts as too high: no liquid at 55 °C, where the pressure depends on the "
                "mass; " +
                    states.problem,
                condition.source);
        } else if (!bears) {
            const GaugePressure at55 = state != nullptr ? state->bubble.gauge() : beyond->gauge();
            settle("pressure.unmarked", specification.type == "39",
                   fmt::format("{} at 55 °C; {} bears no service pressure to compare with",
                               written(at55, specification), specification.text()),
                   condition.source);
        } else if (verdict.suits) {
            byGenericRow();
        }
    }

    [[nodiscard]] const AbsolutePressure* extrapolatedAt(Temperature at) const {
        const auto found = states.extrapolated.find(at);
        return found == states.extrapolated.end() ? nullptr : &found->second;
    }

    void byNamedRow(const DensityRow& row) {
        settle("pressure.named-row", true,
               (verdict.working.empty() ? "" : verdict.working + "; ") +
                   fmt::format("the row of {} authorises {}", row.gas, specification.text()),
               row.source);
    }

    void byGenericRow() {
        const auto row = std::find_if(rules.densities.begin(), rules.densities.end(),
                                      [](const DensityRow& candidate) { return candidate.generic; });
        if (row == rules.densities.end() || states.burnsInCarriage() || states.petroleum ||
            authorises(*row, specification)) {
            return;
        }
        settle("pressure.generic-row", false,
               verdict.working + fmt::format("; but the row of {} does not list {} (it begins at 240 psig)",
                                             row->gas, specification.text()),
               {row->source.section, std::max(row->source.firmness, Firmness::reading), row->source.row,
                row->source.place});
    }

    void byTest(const FillCondition& condition) {
        verdict.limit = GaugePressure::fromBar(specification.testPressureBar);
        const Saturation* state = states.at(condition.at);
        const std::string mark = fmt::format("PH {} bar", specification.testPressureBar);
        if (state != nullptr) {
            compare(condition, state->bubble, state->bubbleUncertaintyPercent, mark);
        }
        const AbsolutePressure* beyond = state == nullptr ? extrapolatedAt(condition.at) : nullptr;
        if (beyond != nullptr) {
            compare(condition, *beyond, kExtrapolatedPercent, mark);
            verdict.working += "; extrapolated from lower temperatures";
        }
        const ListedRatio listed = listedRatio(rules, specification, states.contents);
        if (listed.exists) {
            const std::string before = verdict.working.empty() ? "" : verdict.working + "; ";
            const RowSource source = listed.row == nullptr
                                         ? RowSource{condition.source.section, Firmness::memory}
                                         : listed.row->source;
            settle("pressure.listed-test", listed.row != nullptr,
                   before + fmt::format("the table asks for {} bar or more of this gas, {} is marked",
                                        listed.leastTestBar, specification.testPressureBar),
                   source);
        } else if (state == nullptr && beyond == nullptr) {
            // Filled by the cautious formula of P200 (5)(b), the test pressure is the input and so holds.
            settle("pressure.no-liquid", states.kilogramsPerKilomole > 0,
                   fmt::format("no liquid at {:.0f} °C: the filling is limited so that {} holds",
                               condition.at.celsius(), mark),
                   {"P200 (5)(b)", Firmness::memory});
        }
    }
};

} // namespace

PressureVerdict pressureClass(const FillRules& rules, const LiquidStates& states,
                              const Specification& specification) {
    Asked asked{rules, states, specification, {}};
    asked.verdict.edition = rules.edition;
    if (const Saturation* state = states.at(kRatingTemperature)) {
        asked.verdict.at55 = state->bubble.gauge();
    }
    const FillCondition* service = rules.condition(ConditionKind::service, specification);
    const FillCondition* test = rules.condition(ConditionKind::test, specification);
    if (service != nullptr) {
        asked.byService(*service);
    } else if (test != nullptr) {
        asked.byTest(*test);
    } else {
        asked.settle("pressure.mark-not-accepted", false,
                     fmt::format("{} bears no test pressure by which this rulebook could judge it",
                                 specification.text()),
                     rules.foreignMark);
    }
    return asked.verdict;
}

Result<PressureVerdict> pressureClass(const Rulebook& rulebook, const Catalogue& catalogue,
                                      const Specification& specification, const Contents& contents) {
    const auto rules = FillRules::from(rulebook, catalogue);
    if (!rules) {
        return rules.error();
    }
    return pressureClass(rules.value(), LiquidStates::of(catalogue, contents, rules.value()), specification);
}

std::vector<Finding> PressureVerdict::findings(const std::string& subject) const {
    if (suits && !thin) {
        return {};
    }
    Finding finding;
    finding.rule = suits ? "pressure.thin" : rule;
    finding.severity = suits ? Severity::caution : Severity::danger;
    finding.subject = subject;
    finding.headline = suits ? "pressure class suits by a thin margin: " + working
                             : "pressure class too low or not authorised: " + working;
    finding.working = {working};
    finding.citation = citation;
    finding.edition = edition;
    finding.firmness = firmness;
    finding.row = place;
    finding.remedy = suits
                         ? "Compare with the gas supplier's table before filling."
                         : "Take the contents into a cylinder of a higher class that is authorised for them.";
    finding.overrulable = suits;
    return {finding};
}

} // namespace tarebook
