#include <algorithm>
#include <cmath>
#include <memory>

#include <fmt/core.h>
#include <nlohmann/json.hpp>

#include "app/command.h"
#include "core/refrigerant/catalogue.h"
#include "core/refrigerant/identity.h"
#include "core/refrigerant/saturation.h"

namespace tarebook {

namespace {

constexpr int kTableStep = 5; // degC

/// A row of the pressure-temperature table; without a state, why there is none.
struct CardRow {
    Temperature temperature = kLowestSaturation;
    Result<Saturation> state = Error{};
};

std::vector<CardRow> rowsOf(const Catalogue& catalogue, const Contents& contents, const Temperature* at) {
    std::vector<CardRow> rows;
    if (at != nullptr) {
        rows.push_back({*at, saturationAt(catalogue, contents, *at)});
        return rows;
    }
    const int first = static_cast<int>(std::lround(kLowestSaturation.celsius()));
    const int last = static_cast<int>(std::lround(kHighestSaturation.celsius()));
    for (int celsius = first; celsius <= last; celsius += kTableStep) {
        const Temperature temperature = Temperature::fromCelsius(celsius);
        rows.push_back({temperature, saturationAt(catalogue, contents, temperature)});
    }
    return rows;
}

bool isFlammable(const std::string& safetyGroup) {
    return safetyGroup.size() > 1 && safetyGroup[1] != '1' && safetyGroup != "none";
}

bool isToxic(const std::string& safetyGroup) {
    return safetyGroup.starts_with('B');
}

std::vector<std::string> cautionsOf(const Catalogue& catalogue, const RefrigerantFacts& facts) {
    std::vector<std::string> cautions;
    bool flammable = isFlammable(facts.safetyGroup);
    bool toxic = isToxic(facts.safetyGroup);
    if (facts.safetyGroup == "none") {
        for (const Component& component : facts.contents) {
            const RefrigerantFacts* part = catalogue.facts(component.designation);
            flammable = flammable || (part != nullptr && isFlammable(part->safetyGroup));
            toxic = toxic || (part != nullptr && isToxic(part->safetyGroup));
        }
        cautions.emplace_back(
            "no safety group is assigned: treat it as the most hazardous of its components");
    }
    if (flammable) {
        cautions.emplace_back("flammable or with flammable components: no ignition source, ventilate, only "
                              "equipment and cylinders rated for it");
    }
    if (toxic) {
        cautions.emplace_back("toxic or with toxic components: protective equipment and local rules");
    }
    cautions.emplace_back("figures help a licensed person; the codes in force where you work come first");
    return cautions;
}

std::string numberText(const SourcedNumber* number) {
    if (number == nullptr) {
        return "not known";
    }
    const std::string word = certaintyWord(number->certainty);
    return fmt::format("{:.4g}{}", number->value, word.empty() ? "" : " (" + word + ")");
}

nlohmann::ordered_json jsonOf(const RefrigerantFacts& facts, const std::vector<CardRow>& rows,
                              const std::vector<std::string>& cautions) {
    nlohmann::ordered_json card{{"designation", facts.designation},
                                {"composition", facts.composition},
                                {"safety_group", facts.safetyGroup},
                                {"safety_group_note", certaintyWord(facts.safetyGroupCertainty)},
                                {"class", facts.refrigerantClass},
                                {"molar_mass_kg_kmol", facts.molarMass},
                                {"critical_c", facts.critical.celsius()},
                                {"critical_kpa", facts.criticalPressure.kilopascal()},
                                {"equation_of_state", facts.equationOfState},
                                {"status", facts.status}};
    card["odp"] = facts.odp ? nlohmann::ordered_json(facts.odp->value) : nlohmann::ordered_json();
    for (const GwpSet set : {GwpSet::ar4, GwpSet::ar5, GwpSet::ar6}) {
        const SourcedNumber* gwp = facts.gwp(set);
        card["gwp"][gwpSetName(set)] =
            gwp != nullptr ? nlohmann::ordered_json(gwp->value) : nlohmann::ordered_json();
    }
    card["table"] = nlohmann::ordered_json::array();
    for (const CardRow& row : rows) {
        nlohmann::ordered_json line{{"celsius", row.temperature.celsius()}};
        if (row.state) {
            const Saturation& state = row.state.value();
            line["bubble_kpa"] = state.bubble.kilopascal();
            line["dew_kpa"] = state.dew.kilopascal();
            line["liquid_density_kg_m3"] = state.liquid.kilogramsPerCubicMetre();
            line["vapour_density_kg_m3"] = state.vapour.kilogramsPerCubicMetre();
            line["bubble_uncertainty_pct"] = state.bubbleUncertaintyPercent;
            line["density_uncertainty_pct"] = state.densityUncertaintyPercent;
            line["remarks"] = state.remarks;
        } else {
            line["error"] = row.state.error().text();
        }
        card["table"].push_back(line);
    }
    card["cautions"] = cautions;
    return card;
}

void printFacts(const RefrigerantFacts& facts) {
    const std::string group = certaintyWord(facts.safetyGroupCertainty);
    fmt::print("{}{}\n", facts.designation, facts.name.empty() ? "" : "  " + facts.name);
    fmt::print("  composition    {}\n", facts.composition);
    fmt::print("  safety group   {}{}\n", facts.safetyGroup, group.empty() ? "" : " (" + group + ")");
    fmt::print("  class          {}{}\n", facts.refrigerantClass,
               facts.componentClasses == facts.refrigerantClass ? "" : " (" + facts.componentClasses + ")");
    fmt::print("  ODP            {}\n", numberText(facts.odp ? &*facts.odp : nullptr));
    for (const GwpSet set : {GwpSet::ar4, GwpSet::ar5, GwpSet::ar6}) {
        fmt::print("  GWP {}        {}\n", gwpSetName(set), numberText(facts.gwp(set)));
    }
    fmt::print("  molar mass     {:.2f} kg/kmol\n", facts.molarMass);
    fmt::print("  critical point {:.1f} C, {:.1f} bar absolute{}\n", facts.critical.celsius(),
               facts.criticalPressure.kilopascal() / 100, facts.blend ? " (estimated)" : "");
    if (!facts.status.empty()) {
        fmt::print("  to be checked  {}\n", facts.status);
    }
}

void printTable(const std::vector<CardRow>& rows) {
    fmt::print("\n{:>7} {:>7} {:>9} {:>9} {:>9} {:>9} {:>13} {:>13}\n", "C", "F", "bubble", "bubble", "dew",
               "dew", "liquid kg/m3", "vapour kg/m3");
    fmt::print("{:>7} {:>7} {:>9} {:>9} {:>9} {:>9}\n", "", "", "bar g", "psig", "bar g", "psig");
    std::string refused;
    double pressure = 0;
    double density = 0;
    std::vector<std::string> remarks;
    for (const CardRow& row : rows) {
        if (!row.state) {
            fmt::print("{:>7.1f} {:>7.1f}  {}\n", row.temperature.celsius(), row.temperature.fahrenheit(),
                       row.state.error().wrong == refused ? "the same" : row.state.error().text());
            refused = row.state.error().wrong;
            continue;
        }
        const Saturation& state = row.state.value();
        fmt::print("{:>7.1f} {:>7.1f} {:>9.2f} {:>9.1f} {:>9.2f} {:>9.1f} {:>13.1f} {:>13.2f}\n",
                   row.temperature.celsius(), row.temperature.fahrenheit(), state.bubble.gauge().bar(),
                   state.bubble.gauge().psi(), state.dew.gauge().bar(), state.dew.gauge().psi(),
                   state.liquid.kilogramsPerCubicMetre(), state.vapour.kilogramsPerCubicMetre());
        pressure = std::max(pressure, state.bubbleUncertaintyPercent);
        density = std::max(density, state.densityUncertaintyPercent);
        if (state.remarks.size() > remarks.size()) {
            remarks = state.remarks;
        }
    }
    fmt::print("\nGauge against 1.01325 bar. Uncertain by up to {:.1f} % (pressure) and {:.1f} % (liquid "
               "density).\n",
               pressure, density);
    for (const std::string& remark : remarks) {
        fmt::print("  {}\n", remark);
    }
}

int run(const std::string& text, const std::string& at, const CommandContext& context) {
    const auto catalogue = Catalogue::load(context.resourceFolder + "/refrigerants");
    const auto contents = catalogue ? catalogue.value().contents(text) : Result<Contents>(catalogue.error());
    if (!contents) {
        fmt::print(stderr, "{}\n", contents.error().text());
        return kRefused;
    }
    const auto temperature = at.empty() ? Result<Temperature>(kLowestSaturation) : Temperature::parse(at);
    if (!temperature) {
        fmt::print(stderr, "{}\n", temperature.error().text());
        return kRefused;
    }
    const auto identity = identify(catalogue.value(), contents.value());
    const RefrigerantFacts* known = identity ? catalogue.value().facts(identity->designation) : nullptr;
    const bool nominal = known != nullptr && identity->largestDeviation < 1e-6;
    const RefrigerantFacts facts = nominal ? *known : catalogue.value().mixtureFacts(contents.value());
    const auto rows =
        rowsOf(catalogue.value(), contents.value(), at.empty() ? nullptr : &temperature.value());
    const auto cautions = cautionsOf(catalogue.value(), facts);
    const bool refused = !at.empty() && !rows.front().state;
    if (refused) {
        fmt::print(stderr, "{}\n", rows.front().state.error().text());
    }
    if (context.json) {
        fmt::print("{}\n", jsonOf(facts, rows, cautions).dump(2));
        return refused ? kRefused : kDone;
    }
    printFacts(facts);
    if (known != nullptr && !nominal) {
        fmt::print("  passes for     {} within its tolerance\n", known->designation);
    }
    printTable(rows);
    fmt::print("Equations of state: {}\n", facts.equationOfState);
    for (const std::string& caution : cautions) {
        fmt::print("Caution: {}.\n", caution);
    }
    return refused ? kRefused : kDone;
}

} // namespace

void addRefrigerantCommand(CLI::App& program, CommandContext& context) {
    CLI::App* verb = program.add_subcommand(
        "refrigerant", "A refrigerant's or a mixture's card: composition, safety, GWP, pressures");
    const auto text = std::make_shared<std::string>();
    const auto at = std::make_shared<std::string>();
    verb->add_option("contents", *text, "a designation, or a mixture as R-22:0.7+R-410A:0.3")->required();
    verb->add_option("--at", *at, "only at this temperature, as \"21 C\" or \"70 F\"");
    addJsonOption(*verb, context);
    verb->callback([text, at, &context] { context.exitCode = run(*text, *at, context); });
}

} // namespace tarebook
