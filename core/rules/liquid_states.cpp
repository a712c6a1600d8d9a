#include "core/rules/liquid_states.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "core/refrigerant/identity.h"
#include "core/refrigerant/saturation_series.h"

namespace tarebook {

namespace {

bool petroleumGas(const Contents& contents) {
    static const std::set<std::string, std::less<>> kMain = {"R290", "R600", "R600a", "R1270"};
    const auto isMain = [](const Component& part) { return kMain.contains(part.designation); };
    return std::any_of(contents.begin(), contents.end(), isMain) &&
           std::all_of(contents.begin(), contents.end(),
                       [&](const Component& part) { return isMain(part) || part.designation == "R170"; });
}

/// The first row that names the gas, authorising or not.
const DensityRow* firstRowOf(const FillRules& rules, const Contents& contents) {
    const auto row = std::find_if(rules.densities.begin(), rules.densities.end(), [&](const DensityRow& one) {
        return !one.generic && !one.petroleum && sameGas(one.contents, contents);
    });
    return row == rules.densities.end() ? nullptr : &*row;
}

constexpr double kFarthestKelvin = 6;

void extrapolate(LiquidStates& all, Temperature temperature) {
    if (all.states.size() < 2) {
        return;
    }
    const auto hottest = std::prev(all.states.end());
    const auto before = std::prev(hottest);
    const double ahead = temperature.kelvin() - hottest->first.kelvin();
    if (ahead <= 0 || ahead > kFarthestKelvin) {
        return;
    }
    const auto logarithm = [](const auto& state) { return std::log(state->second.bubble.kilopascal()); };
    const auto inverse = [](const auto& state) { return 1 / state->first.kelvin(); };
    const double slope = (logarithm(hottest) - logarithm(before)) / (inverse(hottest) - inverse(before));
    const double pressure =
        std::exp(logarithm(hottest) + slope * (1 / temperature.kelvin() - inverse(hottest)));
    all.extrapolated.emplace(temperature, AbsolutePressure::fromKilopascal(pressure));
}

} // namespace

bool LiquidStates::burnsInCarriage() const {
    return division.empty() ? flammability == Flammability::yes : division == "2.1";
}

std::optional<PackagingProblem> LiquidStates::problemOf(const FillRules& rules,
                                                        const Specification& specification) const {
    if (rules.densities.empty() || specification.metricTestMark()) {
        return std::nullopt;
    }
    const NamedRow named = namedRow(rules, specification, contents);
    if (named.exists) {
        return named.row != nullptr
                   ? std::nullopt
                   : std::optional(PackagingProblem{
                         "pressure.named-row",
                         fmt::format("the rows of this gas do not authorise {}", specification.text()),
                         firstRowOf(rules, contents)->source});
    }
    if (toxicInMixture && specification.dotType() == "4E") {
        const bool read = rules.edition.starts_with("us");
        return PackagingProblem{
            "pressure.toxic-mixture",
            fmt::format("{} may not hold a mixture with a gas of Division 2.3", specification.text()),
            {"49 CFR 173.304a(a)(1)", read ? Firmness::verified : Firmness::memory}};
    }
    const auto row = std::find_if(rules.densities.begin(), rules.densities.end(),
                                  [](const DensityRow& one) { return one.petroleum; });
    if (petroleum && specification.refillable() && row != rules.densities.end() &&
        std::none_of(rules.densities.begin(), rules.densities.end(), [&](const DensityRow& one) {
            return one.petroleum && authorises(one, specification);
        })) {
        return PackagingProblem{"pressure.petroleum-row",
                                fmt::format("the rows of {} do not list {}", row->gas, specification.text()),
                                row->source};
    }
    return std::nullopt;
}

const Saturation* LiquidStates::at(Temperature temperature) const {
    const auto found = states.find(temperature);
    return found == states.end() ? nullptr : &found->second;
}

LiquidStates LiquidStates::of(const Catalogue& catalogue, const Contents& contents, const FillRules& rules,
                              const std::vector<Temperature>& extra) {
    LiquidStates all;
    all.contents = contents;
    all.petroleum = petroleumGas(contents);
    all.flammability = flammabilityOf(catalogue, contents);
    if (const auto known = identify(catalogue, contents)) {
        all.division = rules.divisionOf(known->designation);
    }
    all.toxicInMixture =
        contents.size() > 1 && std::any_of(contents.begin(), contents.end(), [&](const Component& part) {
            return rules.divisionOf(part.designation) == "2.3";
        });
    double kilomoles = 0;
    for (const Component& part : contents) {
        const Substance* substance = catalogue.substance(part.designation);
        kilomoles += substance == nullptr ? 0 : part.massShare / substance->molarMass;
    }
    all.kilogramsPerKilomole = kilomoles > 0 ? 1 / kilomoles : 0;
    std::set<Temperature> wanted(extra.begin(), extra.end());
    wanted.insert(kRatingTemperature);
    if (all.petroleum) {
        wanted.insert(kGravityTemperature);
    }
    for (const FillCondition& condition : rules.conditions) {
        wanted.insert(condition.at);
    }
    const std::vector<Temperature> temperatures(wanted.begin(), wanted.end());
    auto found = saturationsAt(catalogue, contents, temperatures);
    for (std::size_t place = 0; place < temperatures.size(); ++place) {
        if (found[place]) {
            all.states.emplace(temperatures[place], std::move(found[place]).value());
        } else {
            all.problem = found[place].error().text();
            extrapolate(all, temperatures[place]);
        }
    }
    return all;
}

} // namespace tarebook
