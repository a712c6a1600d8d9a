#include <memory>

#include <fmt/core.h>
#include <nlohmann/json.hpp>

#include "app/command.h"
#include "app/known_refrigerants.h"
#include "app/output.h"
#include "app/reading_options.h"
#include "app/shop_session.h"
#include "core/refrigerant/refrigerant_card.h"
#include "core/shop/identity.h"

namespace tarebook {

namespace {

struct Options {
    std::string contents;
    ReadingOptions reading;
    std::string shop;
};

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
                                {"status", facts.status},
                                {"own_blend", facts.ownBlend}};
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
    fmt::print("{}{}\n", facts.designation,
               facts.ownBlend       ? "  this shop's own blend"
               : facts.name.empty() ? ""
                                    : "  " + facts.name);
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
        fmt::print("  {}  {}\n", facts.ownBlend ? "own blend    " : "to be checked", facts.status);
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

void printCard(const RefrigerantCard& card, const std::optional<IdentityCheck>& check) {
    printFacts(card.facts);
    if (!card.passesFor.empty()) {
        fmt::print("  passes for     {} within its tolerance\n", card.passesFor);
    }
    printTable(card);
    if (check) {
        fmt::print("\n");
        printFindings({check->finding});
    }
    fmt::print("Equations of state: {}\n", card.facts.equationOfState);
    for (const std::string& caution : card.cautions) {
        fmt::print("Caution: {}.\n", caution);
    }
}

Result<std::vector<Temperature>> temperaturesIn(const Options& options) {
    if (options.reading.at.empty()) {
        return cardTemperatures();
    }
    const auto only = Temperature::parse(options.reading.at);
    if (!only) {
        return inOption("--at", only.error());
    }
    return std::vector<Temperature>{only.value()};
}

Result<IdentityCheck> checked(const KnownRefrigerants& known, const RefrigerantCard& card,
                              PressureReading reading, const CommandContext& context) {
    const Date today = Date::fromDayNumber(static_cast<int>(SystemClock().now().seconds() / 86'400));
    const auto rulebook = Rulebook::load(context.resourceFolder, known.rulebook, today);
    if (!rulebook) {
        return rulebook.error();
    }
    const auto rules = ContentsRules::from(rulebook.value());
    if (!rules) {
        return rules.error();
    }
    takeSettings(known.own, reading);
    return checkIdentity(rules.value(), known.catalogue, card.contents,
                         known.catalogue.displayName(card.contents), reading, "");
}

int run(const Options& options, CommandContext& context) {
    const auto known = knownRefrigerants(options.shop, context);
    if (!known) {
        return context.exitCode;
    }
    const auto fail = [](const Error& error) {
        fmt::print(stderr, "{}\n", error.text());
        return kRefused;
    };
    const auto temperatures = temperaturesIn(options);
    const auto reading = readingIn(options.reading);
    if (!temperatures || !reading) {
        return fail(temperatures ? reading.error() : temperatures.error());
    }
    const auto made = refrigerantCard(known->catalogue, options.contents, temperatures.value());
    if (!made) {
        return fail(made.error());
    }
    const RefrigerantCard& card = made.value();
    const bool refused = !options.reading.at.empty() && !card.rows.front().state;
    if (refused) {
        (void)fail(card.rows.front().state.error());
    }
    std::optional<IdentityCheck> check;
    if (reading.value() && !refused) {
        auto answer = checked(*known, card, *reading.value(), context);
        if (!answer) {
            return fail(answer.error());
        }
        check = std::move(answer).value();
    }
    if (context.json) {
        nlohmann::ordered_json object = jsonOf(card);
        if (check) {
            object["measured"] = jsonOf(*check, *reading.value());
        }
        fmt::print("{}\n", object.dump(2));
    } else {
        printCard(card, check);
    }
    return refused ? kRefused : kDone;
}

} // namespace

void addRefrigerantCommand(CLI::App& program, CommandContext& context) {
    CLI::App* verb = program.add_subcommand(
        "refrigerant", "A refrigerant's or a mixture's card: composition, safety, GWP, pressures");
    const auto options = std::make_shared<Options>();
    verb->add_option("contents", options->contents, "a designation, or a mixture as R-22:0.7+R-410A:0.3")
        ->required();
    CLI::Option* at =
        verb->add_option("--at", options->reading.at, "only at this temperature, as \"21 C\" or \"70 F\"");
    addReadingOptions(*verb, options->reading, at);
    addOwnBlendsOption(*verb, options->shop);
    addJsonOption(*verb, context);
    verb->callback([options, &context] { context.exitCode = run(*options, context); });
}

} // namespace tarebook
