#include <memory>

#include <fmt/core.h>

#include "app/evacuation_options.h"
#include "app/rule_question.h"
#include "app/shop_session.h"
#include "core/rules/appliance_pressure.h"
#include "core/rules/duties.h"
#include "core/rules/evacuation.h"
#include "core/rules/leak_check.h"

namespace tarebook {

namespace {

struct Options : RuleQuestion {
    std::string contents;
    std::string charge;
    // evacuation
    EvacuationOptions level;
    std::string machineMade;
    // co2e
    bool hermetic = false;
    bool home = false;
    bool detection = false;
};

Result<Contents> contentsIn(const RuleDesk& desk, const Options& options) {
    return desk.catalogue.contents(options.contents);
}

/// The charge that an option or argument gives; it must be there.
Result<Mass> chargeIn(const char* option, const std::string& text) {
    const auto mass = weightIn(option, text);
    if (!mass) {
        return mass.error();
    }
    return mass.value() ? Result<Mass>(*mass.value())
                        : Result<Mass>(inOption(option, {"no weight", "write it as '34 lb' or '15.4 kg'"}));
}

int dutiesVerb(const Options& options, CommandContext& context) {
    const auto desk = ruleDesk(options, context);
    if (!desk) {
        return context.exitCode;
    }
    const auto contents = contentsIn(*desk, options);
    if (!contents) {
        return refuse(contents.error());
    }
    const auto findings = dutiesOf(desk->book, desk->catalogue, contents.value());
    return findings ? answer(findings.value(), context, {{"edition", desk->book.edition()}})
                    : refuse(findings.error());
}

int evacuationVerb(const Options& options, CommandContext& context) {
    const auto desk = ruleDesk(options, context);
    if (!desk) {
        return context.exitCode;
    }
    const auto contents = contentsIn(*desk, options);
    const auto charge = chargeIn("--charge", options.charge);
    if (!contents || !charge) {
        return refuse(contents ? charge.error() : contents.error());
    }
    const auto appliance = appliancePressure(desk->book, desk->catalogue, contents.value());
    if (!appliance) {
        return refuse(appliance.error());
    }
    const auto reached = reachedIn(options.level);
    if (!reached) {
        return refuse(reached.error());
    }
    EvacuationAsk ask{options.level.small ? "small" : appliance.value().name,
                      charge.value(),
                      {},
                      options.level.work,
                      reached.value()};
    if (!options.machineMade.empty()) {
        const auto day = dayIn("--machine-made", options.machineMade);
        if (!day) {
            return refuse(day.error());
        }
        ask.machineMade = day.value();
    }
    auto finding = evacuation(desk->book, ask);
    if (!finding) {
        return refuse(finding.error());
    }
    Finding found = std::move(finding).value();
    if (!options.level.small) {
        found.working.insert(found.working.begin(), appliance.value().working.begin(),
                             appliance.value().working.end());
    }
    return answer({found}, context);
}

int carbonVerb(const Options& options, CommandContext& context) {
    const auto desk = ruleDesk(options, context);
    if (!desk) {
        return context.exitCode;
    }
    const auto contents = contentsIn(*desk, options);
    const auto charge = chargeIn("MASS", options.charge);
    if (!contents || !charge) {
        return refuse(contents ? charge.error() : contents.error());
    }
    const auto factor = carbonFactor(desk->book, desk->catalogue, contents.value());
    const auto mass = carbonFinding(desk->book, desk->catalogue, contents.value(), charge.value());
    if (!factor || !mass) {
        return refuse(factor ? mass.error() : factor.error());
    }
    std::vector<Finding> findings{mass.value()};
    if (desk->book.table("leak-checks") != nullptr) {
        const auto check = leakCheck(desk->book, desk->catalogue, contents.value(),
                                     {charge.value(), options.hermetic, options.home, options.detection});
        if (!check) {
            return refuse(check.error());
        }
        findings.push_back(check.value());
    }
    return answer(findings, context,
                  {{"gwp", factor.value().gwp},
                   {"mass_kg", charge.value().kilograms()},
                   {"tonnes_co2e", factor.value().tonnes(charge.value())}});
}

CLI::App& addVerb(CLI::App& program, const std::shared_ptr<Options>& options, CommandContext& context,
                  const char* name, const char* about, int (*work)(const Options&, CommandContext&)) {
    CLI::App* verb = program.add_subcommand(name, about);
    verb->add_option("CONTENTS", options->contents, "a designation, or a mixture as R-22:0.7+R-410A:0.3")
        ->required();
    verb->callback([options, work, &context] { context.exitCode = work(*options, context); });
    return *verb;
}

} // namespace

void addReleaseCommands(CLI::App& program, CommandContext& context) {
    {
        const auto options = std::make_shared<Options>();
        CLI::App& verb =
            addVerb(program, options, context, "duties",
                    "What the law asks of who holds, moves or passes on a refrigerant", dutiesVerb);
        addRuleQuestion(verb, *options, context);
    }
    {
        const auto options = std::make_shared<Options>();
        CLI::App& verb = addVerb(program, options, context, "evacuation",
                                 "How far an appliance is evacuated before it is opened", evacuationVerb);
        verb.add_option("--charge", options->charge, "full charge of the circuit, as '34 lb'")->required();
        verb.add_option("--machine-made", options->machineMade,
                        "when the recovery machine was made, as 1995-06-01; unknown: the stricter level");
        addEvacuationOptions(verb, options->level);
        addRuleQuestion(verb, *options, context);
    }
    {
        const auto options = std::make_shared<Options>();
        options->fallback = "eu";
        CLI::App& verb = addVerb(
            program, options, context, "co2e",
            "A mass in tonnes of carbon dioxide equivalent, and the leak checks that follow", carbonVerb);
        verb.add_option("MASS", options->charge, "of a charge or a batch, as '10 kg'")->required();
        verb.add_flag("--hermetic", options->hermetic, "sealed for life and labelled so");
        verb.add_flag("--home", options->home, "such a unit in a home");
        verb.add_flag("--detection", options->detection, "a system that detects leaks is fitted");
        addRuleQuestion(verb, *options, context);
    }
}

} // namespace tarebook
