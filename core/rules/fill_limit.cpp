#include "core/rules/fill_limit.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace tarebook {

namespace {

constexpr double kMilligramsPerPound = 453'592.37;
constexpr double kWaterAt25C = 997.05;  // kg/m3, the water of handbook gravities at 77 degF
constexpr double kWaterAt60F = 999.016; // kg/m3, 60 degF; CRC Handbook of Chemistry and Physics

double waterOf(const WaterCapacity& capacity) {
    return static_cast<double>(capacity.water().milligrams());
}

Mass cut(double milligrams) {
    return Mass::fromMilligrams(static_cast<std::int64_t>(std::floor(milligrams)));
}

/// Numbers for the person: in pounds for DOT, in kilograms and litres for the others.
struct Writer {
    bool metric = false;

    [[nodiscard]] std::string mass(double milligrams) const {
        return metric ? fmt::format("{:.3f} kg", milligrams / 1e6)
                      : fmt::format("{:.2f} lb", milligrams / kMilligramsPerPound);
    }
    [[nodiscard]] std::string water(const WaterCapacity& capacity) const {
        return metric ? fmt::format("{:.2f} kg", waterOf(capacity) / 1e6)
                      : fmt::format("{:.1f} lb", waterOf(capacity) / kMilligramsPerPound);
    }
};

struct Asked {
    const FillRules& rules;
    const LiquidStates& states;
    const Specification& specification;
    const WaterCapacity& capacity;
    Writer writer;
    FillLimit limit;

    void addPercent(const char* rule, const DensityRow& row, const std::string& before) {
        // Whole numbers, so that no rounding of binary fractions touches a statutory figure.
        const std::int64_t net = capacity.water().milligrams() * row.tenthPercent / 1000;
        const bool foreign = specification.authority == "TC" && rules.edition.starts_with("us");
        limit.candidates.push_back(
            {rule, Mass::fromMilligrams(net),
             fmt::format("{}{:.1f} % x {} of water = {}", before, row.tenthPercent / 10.0,
                         writer.water(capacity), writer.mass(static_cast<double>(net))),
             foreign ? "CSA B340 decides for TC marks (49 CFR 173.301(a)(2)); figure of " + row.source.section
                     : row.source.section,
             foreign ? Firmness::memory : row.source.firmness, true, row.source.row, row.source.place});
        limit.statutoryKnown = limit.statutoryKnown || !foreign;
    }

    void addLiquid(const std::string& rule, double share, Temperature at, const RowSource& source,
                   bool lawful) {
        const Saturation* state = states.at(at);
        if (state == nullptr) {
            return;
        }
        const double net =
            share * safeLiquid(*state).kilogramsPerCubicMetre() * capacity.volume().cubicMetres() * 1e6;
        limit.candidates.push_back(
            {rule, cut(net),
             fmt::format(
                 "{}{:.4f} kg/l of liquid at {:.1f} °C, lowered by the model's {:.2f} %, x {:.2f} l = {}",
                 share < 1 ? fmt::format("{:.2f} x ", share) : "",
                 state->liquid.kilogramsPerCubicMetre() / 1000, at.celsius(),
                 state->densityUncertaintyPercent, capacity.volume().litres(), writer.mass(net)),
             source.section, source.firmness, lawful, source.row, source.place});
    }

    void addPractice(const FillCondition& condition) {
        const Saturation* state = states.at(condition.at);
        // Liquid at 25 degC that is none at 55 degC is no measure of anything.
        if (state == nullptr || states.at(kRatingTemperature) == nullptr) {
            return;
        }
        const double gravity = state->liquid.kilogramsPerCubicMetre() / kWaterAt25C;
        const double net = condition.factor * gravity * waterOf(capacity);
        limit.candidates.push_back({condition.rule, cut(net),
                                    fmt::format("{:.1f} x {} of water x {:.4f} = {}", condition.factor,
                                                writer.water(capacity), gravity, writer.mass(net)),
                                    condition.source.section, condition.source.firmness, false,
                                    condition.source.row, condition.source.place});
    }

    /// Bands have three decimals with both ends included. A denser gas may be filled further, so the gravity
    /// is lowered by the model's uncertainty and cut.
    void addPetroleum() {
        const Saturation* state = states.at(kGravityTemperature);
        if (!states.petroleum || state == nullptr) {
            return;
        }
        const int gravity =
            static_cast<int>(std::floor(safeLiquid(*state).kilogramsPerCubicMetre() / kWaterAt60F * 1000));
        for (const DensityRow& row : rules.densities) {
            if (row.petroleum && gravity >= row.leastGravity && gravity <= row.mostGravity) {
                addPercent("fill.lpg", row, fmt::format("gravity 0.{:03} at 60 °F: ", gravity));
                return;
            }
        }
    }

    /// P200 (5)(b), for what has no liquid at 60 degC: Ph x MM x 0.001 / (R x 338 K).
    void addFormula(const RowSource& source) {
        constexpr double kGas = 0.0831451; // bar l/(mol K), as printed there
        const double ratio =
            specification.testPressureBar * states.kilogramsPerKilomole * 0.001 / (kGas * 338);
        const double net = ratio * capacity.volume().litres() * 1e6;
        limit.candidates.push_back(
            {"fill.p200-formula", cut(net),
             fmt::format("{} bar x {:.2f} g/mol x 0.001 / ({} x 338) = {:.4f} kg/l, x {:.2f} l = {}",
                         specification.testPressureBar, states.kilogramsPerKilomole, kGas, ratio,
                         capacity.volume().litres(), writer.mass(net)),
             source.section + "; formula of P200 (5)(b) for missing data, a cautious one", source.firmness,
             true});
    }

    void addConditions(ConditionKind kind) {
        for (const FillCondition& condition : rules.conditions) {
            const bool exempt =
                std::any_of(condition.exempt.begin(), condition.exempt.end(),
                            [&](const Contents& gas) { return sameGas(gas, states.contents); });
            if (condition.kind != kind || exempt || !condition.covers(specification)) {
                continue;
            }
            if (kind == ConditionKind::practice) {
                addPractice(condition);
            } else {
                addLiquid(condition.rule, condition.factor, condition.at, condition.source, true);
            }
        }
    }
};

std::optional<Error> addByDensity(Asked& asked) {
    if (const auto problem = asked.states.problemOf(asked.rules, asked.specification)) {
        return Error{problem->words,
                     fmt::format("choose a packaging and service pressure that {} names for it",
                                 problem->source.section)};
    }
    const NamedRow named = namedRow(asked.rules, asked.specification, asked.states.contents);
    if (named.row != nullptr && named.row->tenthPercent > 0) {
        asked.addPercent("fill.named-row", *named.row, "");
    }
    asked.addPetroleum();
    asked.addConditions(ConditionKind::liquid);
    return {};
}

std::optional<Error> addByRatio(Asked& asked) {
    const ListedRatio listed = listedRatio(asked.rules, asked.specification, asked.states.contents);
    if (listed.exists && listed.row == nullptr && asked.specification.metricTestMark()) {
        return Error{fmt::format("{} bears less than the {} bar of test pressure that this gas asks for",
                                 asked.specification.text(), listed.leastTestBar),
                     "choose a receptacle with that PH or more; there is no lower filling that would do"};
    }
    if (listed.row == nullptr) {
        asked.addConditions(ConditionKind::liquid);
        const FillCondition* test = asked.rules.condition(ConditionKind::test, asked.specification);
        if (asked.limit.candidates.empty() && test != nullptr) {
            asked.addFormula(test->source);
        }
        return {};
    }
    const double net = listed.row->gramsPerLitre / 1000.0 * asked.capacity.volume().litres() * 1e6;
    asked.limit.candidates.push_back(
        {"fill.listed-ratio", cut(net),
         fmt::format("{:.2f} kg/l (row of {} bar) x {:.2f} l = {}", listed.row->gramsPerLitre / 1000.0,
                     listed.row->leastTestBar, asked.capacity.volume().litres(), asked.writer.mass(net)),
         listed.row->source.section, listed.row->source.firmness, true, listed.row->source.row,
         listed.row->source.place});
    asked.limit.statutoryKnown = true;
    // The listed value is the law; what the conditions would give is worth knowing where it is lower.
    Asked computed{asked.rules, asked.states, asked.specification, asked.capacity, asked.writer, {}};
    computed.addConditions(ConditionKind::liquid);
    for (const LimitCandidate& candidate : computed.limit.candidates) {
        if (candidate.net < cut(net)) {
            asked.limit.remarks.push_back(
                fmt::format("computed for comparison, {}: {}", candidate.rule, candidate.working));
        }
    }
    return {};
}

Mass difference(Mass one, Mass other) {
    return Mass::fromMilligrams(one.milligrams() - other.milligrams());
}

} // namespace

Mass FillLimit::grossToStopAt(Mass tare) const {
    return Mass::fromMilligrams(tare.milligrams() + net.milligrams());
}

Mass FillLimit::roomLeft(Mass inside) const {
    return difference(net, inside);
}

Mass FillLimit::lawfulRoomLeft(Mass inside) const {
    return difference(lawful, inside);
}

Result<FillLimit> fillLimit(const FillRules& rules, const LiquidStates& states,
                            const Specification& specification, const WaterCapacity& capacity,
                            const ShopMargins& margins) {
    if (!specification.refillable()) {
        return Error{fmt::format("{} is made for one filling and never refilled", specification.text()),
                     "recover into a refillable cylinder"};
    }
    Asked asked{rules, states, specification, capacity, {specification.authority != "DOT"}, {}};
    const bool byDensity = !rules.densities.empty() && !specification.metricTestMark();
    if (const auto problem = byDensity ? addByDensity(asked) : addByRatio(asked)) {
        return *problem;
    }
    FillLimit& limit = asked.limit;
    if (limit.candidates.empty()) {
        return Error{"no filling limit can be given: " +
                         (states.problem.empty() ? "the rulebook has none for this mark" : states.problem),
                     "ask the supplier of the gas for the limit of this cylinder"};
    }
    asked.addConditions(ConditionKind::practice);
    for (const ShopMargin& margin : margins) {
        asked.addLiquid(margin.rule, margin.liquidShare, margin.at, {margin.source, Firmness::practice},
                        false);
    }
    std::stable_sort(
        limit.candidates.begin(), limit.candidates.end(),
        [](const LimitCandidate& one, const LimitCandidate& other) { return one.net < other.net; });
    const auto least = [&](bool lawful) {
        const auto found =
            std::find_if(limit.candidates.begin(), limit.candidates.end(),
                         [lawful](const LimitCandidate& candidate) { return candidate.lawful == lawful; });
        return found == limit.candidates.end() ? std::nullopt : std::optional(found->net);
    };
    limit.net = limit.candidates.front().net;
    limit.governingRule = limit.candidates.front().rule;
    limit.lawful = *least(true);
    limit.practice = least(false).value_or(limit.lawful);
    return limit;
}

Result<FillLimit> fillLimit(const Rulebook& rulebook, const Catalogue& catalogue,
                            const Specification& specification, const WaterCapacity& capacity,
                            const Contents& contents, const ShopMargins& margins) {
    const auto rules = FillRules::from(rulebook, catalogue);
    if (!rules) {
        return rules.error();
    }
    std::vector<Temperature> extra;
    for (const ShopMargin& margin : margins) {
        extra.push_back(margin.at);
    }
    const LiquidStates states = LiquidStates::of(catalogue, contents, rules.value(), extra);
    return fillLimit(rules.value(), states, specification, capacity, margins);
}

std::optional<Finding> overfillFinding(const FillLimit& limit, Mass inside, const std::string& subject,
                                       const std::string& edition) {
    if (inside <= limit.net) {
        return {};
    }
    const bool unlawful = inside > limit.lawful;
    const auto governing =
        std::find_if(limit.candidates.begin(), limit.candidates.end(),
                     [&](const LimitCandidate& candidate) { return !unlawful || candidate.lawful; });
    Finding finding;
    finding.rule = unlawful ? "fill.overfilled" : "fill.above-practice";
    finding.severity = unlawful ? Severity::danger : Severity::caution;
    finding.subject = subject;
    const auto both = [](Mass mass) {
        return fmt::format("{} ({})", mass.poundsFlooredText(), mass.kilogramsText());
    };
    finding.headline =
        unlawful ? fmt::format("{} inside, lawful limit {}: overfilled, not to be moved on the road",
                               both(inside), both(limit.lawful))
                 : fmt::format("{} inside, above the practice limit of {}", both(inside), both(limit.net));
    for (const LimitCandidate& candidate : limit.candidates) {
        finding.working.push_back(
            fmt::format("{}: {} ({})", candidate.rule, candidate.working, candidate.citation));
    }
    // What is too much is never printed too small.
    const auto above = [&](Mass most) { return difference(most, inside).poundsFlooredText().substr(1); };
    std::string much = unlawful ? "above the lawful limit by " + above(limit.lawful) : std::string();
    if (limit.net < limit.lawful) {
        much +=
            (unlawful ? ", above the practice limit by " : "above the practice limit by ") + above(limit.net);
    }
    finding.working.push_back(much);
    finding.citation = governing->citation;
    finding.firmness = governing->firmness;
    finding.row = governing->place;
    finding.edition = edition;
    constexpr std::int64_t kHundredth =
        10'000; // of a kilogram; what was rounded to a milligram is not raised
    const std::int64_t hundredths =
        (difference(inside, limit.net).milligrams() + kHundredth - 2) / kHundredth;
    finding.remedy = fmt::format("Take at least {} ({}.{:02} kg) into a lawful cylinder with room for it.",
                                 above(limit.net), hundredths / 100, hundredths % 100);
    finding.overrulable = !unlawful;
    return finding;
}

} // namespace tarebook
