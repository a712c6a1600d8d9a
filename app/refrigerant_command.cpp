#include <memory>

#include <fmt/core.h>
#include <nlohmann/json.hpp>

#include "app/command.h"
#include "core/refrigerant/refrigerant_card.h"

namespace tarebook {

namespace {

std::string numberText(const SourcedNumber* number) {
    if (number == nullptr) {
        return "not known";
    }
    const std::string word = certaintyWord(number->certainty);
    return fmt::format("{:.4g}{}", number->value, word.empty() ? "" : " (" + word + ")");
}

nlohmann::ordered_json jsonOf(const RefrigerantCard& its) {
    const RefrigerantFacts& facts = its.facts;
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
    for (const CardRow& row : its.rows) {
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
    card["cautions"] = its.cautions;
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

void printTable(const RefrigerantCard& card) {
    fmt::print("\n{:>7} {:>7} {:>9} {:>9} {:>9} {:>9} {:>13} {:>13}\n", "C", "F", "bubble", "bubble", "dew",
               "dew", "liquid kg/m3", "vapour kg/m3");
    fmt::print("{:>7} {:>7} {:>9} {:>9} {:>9} {:>9}\n", "", "", "bar g", "psig", "bar g", "psig");
    std::string refused;
    for (const CardRow& row : card.rows) {
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
    }
    fmt::print("\nGauge against 1.01325 bar. Uncertain by up to {:.1f} % (pressure) and {:.1f} % (liquid "
               "density).\n",
               card.pressureUncertaintyPercent, card.densityUncertaintyPercent);
    for (const std::string& remark : card.remarks) {
        fmt::print("  {}\n", remark);
    }
}

int run(const std::string& text, const std::string& at, const CommandContext& context) {
    const auto catalogue = Catalogue::load(context.resourceFolder + "/refrigerants");
    if (!catalogue) {
        fmt::print(stderr, "{}\n", catalogue.error().text());
        return kRefused;
    }
    std::vector<Temperature> temperatures = cardTemperatures();
    if (!at.empty()) {
        const auto only = Temperature::parse(at);
        if (!only) {
            fmt::print(stderr, "{}\n", only.error().text());
            return kRefused;
        }
        temperatures = {only.value()};
    }
    const auto made = refrigerantCard(catalogue.value(), text, temperatures);
    if (!made) {
        fmt::print(stderr, "{}\n", made.error().text());
        return kRefused;
    }
    const RefrigerantCard& card = made.value();
    const bool refused = !at.empty() && !card.rows.front().state;
    if (refused) {
        fmt::print(stderr, "{}\n", card.rows.front().state.error().text());
    }
    if (context.json) {
        fmt::print("{}\n", jsonOf(card).dump(2));
        return refused ? kRefused : kDone;
    }
    printFacts(card.facts);
    if (!card.passesFor.empty()) {
        fmt::print("  passes for     {} within its tolerance\n", card.passesFor);
    }
    printTable(card);
    fmt::print("Equations of state: {}\n", card.facts.equationOfState);
    for (const std::string& caution : card.cautions) {
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
