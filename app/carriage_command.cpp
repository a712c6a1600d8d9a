#include <memory>
#include <optional>

#include <fmt/core.h>

#include "app/rule_question.h"
#include "app/shop_session.h"
#include "core/base/text.h"
#include "core/cylinder/nameplate.h"
#include "core/quantity/pressure_reading.h"
#include "core/rules/duties.h"
#include "core/rules/residue.h"
#include "core/rules/shipping_line.h"
#include "core/rules/vehicle_load.h"

namespace tarebook {

namespace {

struct ShippingOptions : RuleQuestion {
    std::string contents;
    bool emptied = false;
    std::string left;
    std::string waterCapacity;
    std::string measured;
    std::string purgedWith;
    std::string line;
    bool otherCarrier = false;
};

struct LoadOptions : RuleQuestion {
    std::vector<std::string> cylinders;
};

/// The description as a finding: what to write, what is equally right, which label.
Finding lineFinding(const ShippingDescription& description) {
    Finding finding;
    finding.rule = "transport.description";
    finding.headline = description.regulated ? description.text
                                             : "Not regulated as a dangerous good: no number may be printed.";
    finding.working = description.working;
    if (description.regulated) {
        finding.working.insert(finding.working.begin(), "label " + description.labels);
        if (!description.alternativeName.empty()) {
            finding.working.push_back("equally right: " + description.alternativeName);
        }
    }
    finding.citation = description.citation;
    finding.edition = description.edition;
    finding.firmness = description.firmness;
    finding.remedy = "The shipper answers for it: compare it with your edition.";
    return finding;
}

Result<ResidueAsk> residueAsk(const ShippingOptions& options, const Contents& contents) {
    ResidueAsk ask;
    ask.contents = contents;
    const auto left = weightIn("--left", options.left);
    if (!left) {
        return left.error();
    }
    ask.left = left.value();
    ask.purgedWith = options.purgedWith;
    if (!options.waterCapacity.empty()) {
        const auto water = WaterCapacity::parse(options.waterCapacity);
        if (!water) {
            return inOption("--water-capacity", water.error());
        }
        ask.volume = water.value().volume();
    }
    if (!options.measured.empty()) {
        const auto pressure = parseGaugePressure(options.measured);
        if (!pressure) {
            return inOption("--measured", pressure.error());
        }
        ask.measured = pressure.value();
    }
    return ask;
}

int shippingVerb(const ShippingOptions& options, CommandContext& context) {
    const auto desk = ruleDesk(options, context);
    if (!desk) {
        return context.exitCode;
    }
    const auto contents = desk->catalogue.contents(options.contents);
    if (!contents) {
        return refuse(contents.error());
    }
    const auto description = shippingDescription(desk->book, desk->catalogue, contents.value());
    if (!description) {
        return refuse(description.error());
    }
    const ShippingDescription& its = description.value();
    std::vector<Finding> findings{lineFinding(its)};
    nlohmann::json more{{"description", its.text},
                        {"un_number", its.unNumber},
                        {"division", its.division},
                        {"labels", its.labels},
                        {"technical_names", its.technicalNames}};
    if (options.emptied && its.regulated) {
        const auto ask = residueAsk(options, contents.value());
        const auto verdict = ask ? residue(desk->book, desk->catalogue, its, ask.value())
                                 : Result<ResidueVerdict>(ask.error());
        if (!verdict) {
            return refuse(verdict.error());
        }
        findings.push_back(verdict.value().finding);
        more["free_when_covered"] = verdict.value().free;
        more["residue_words"] = verdict.value().words;
    }
    if (its.regulated) {
        for (Finding& duty : carriageDuties(desk->book, !options.otherCarrier)) {
            findings.push_back(std::move(duty));
        }
    }
    const int code = answer(findings, context, std::move(more));
    if (options.line.empty()) {
        return code;
    }
    const auto problem = shippingLineProblem(desk->book, options.line);
    return problem ? refuse(inOption("--check", *problem)) : code;
}

/// `CONTENTS,GROSS,TARE[,emptied]`.
Result<LoadedCylinder> cylinderIn(const RuleDesk& desk, const std::string& text, std::size_t number) {
    const std::vector<std::string> cells = split(text, ',');
    if (cells.size() != 3 && !(cells.size() == 4 && trimmed(cells[3]) == "emptied")) {
        return Error{
            fmt::format("--cylinder: {} is no CONTENTS,GROSS,TARE", tarebook::quoted(text)),
            "as 'R-410A,67.6 lb,27 lb', with ',emptied' behind it for an empty that was not cleaned"};
    }
    const auto contents = desk.catalogue.contents(cells[0]);
    const auto gross = Mass::parse(cells[1]);
    const auto tare = Mass::parse(cells[2]);
    if (!contents || !gross || !tare) {
        return inOption("--cylinder", !contents ? contents.error() : !gross ? gross.error() : tare.error());
    }
    if (gross.value() < tare.value()) {
        return Error{fmt::format("--cylinder: {} has a gross below its tare", tarebook::quoted(text)),
                     "weigh it again, or exchange the two"};
    }
    const auto description = shippingDescription(desk.book, desk.catalogue, contents.value());
    if (!description) {
        return inOption("--cylinder", description.error());
    }
    LoadedCylinder cylinder;
    cylinder.name = fmt::format("{} ({})", number, trimmed(cells[0]));
    cylinder.description = description.value().text;
    cylinder.division = description.value().division;
    cylinder.gross = gross.value();
    cylinder.net = Mass::fromMilligrams(gross.value().milligrams() - tare.value().milligrams());
    cylinder.residue = cells.size() == 4;
    return cylinder;
}

int loadVerb(const LoadOptions& options, CommandContext& context) {
    const auto desk = ruleDesk(options, context);
    if (!desk) {
        return context.exitCode;
    }
    std::vector<LoadedCylinder> cylinders;
    for (const std::string& text : options.cylinders) {
        auto cylinder = cylinderIn(*desk, text, cylinders.size() + 1);
        if (!cylinder) {
            return refuse(cylinder.error());
        }
        cylinders.push_back(std::move(cylinder).value());
    }
    const auto load = vehicleLoad(desk->book, cylinders);
    if (!load) {
        return refuse(load.error());
    }
    return answer(load.value().findings, context,
                  {{"relieved", load.value().relieved},
                   {"gross_kg", load.value().gross.kilograms()},
                   {"points", load.value().points}});
}

} // namespace

void addCarriageCommands(CLI::App& program, CommandContext& context) {
    {
        CLI::App* verb = program.add_subcommand(
            "shipping",
            "How contents stand on a shipping paper, emptied cylinders too, and what goes with it");
        const auto options = std::make_shared<ShippingOptions>();
        verb->add_option("CONTENTS", options->contents, "a designation, or a mixture as R-22:0.7+R-410A:0.3")
            ->required();
        verb->add_flag("--emptied", options->emptied, "an empty that was not cleaned");
        verb->add_option("--left", options->left, "what is left in it, as '0.2 lb'");
        verb->add_option("--water-capacity", options->waterCapacity, "of the cylinder, as '47.7 lb'");
        verb->add_option("--measured", options->measured,
                         "what a gauge shows at rest at 20 °C, as '20 psig'");
        verb->add_option("--purged-with", options->purgedWith,
                         "gas that it was purged with after it was evacuated, as nitrogen");
        verb->add_flag("--other-carrier", options->otherCarrier,
                       "handed to a carrier, not driven by the shop");
        verb->add_option("--check", options->line, "a line as somebody wrote it: is it in order?");
        addRuleQuestion(*verb, *options, context);
        verb->callback([options, &context] { context.exitCode = shippingVerb(*options, context); });
    }
    {
        CLI::App* verb =
            program.add_subcommand("load", "Whether cylinders travel under the small-load relief together");
        const auto options = std::make_shared<LoadOptions>();
        verb->add_option(
                "--cylinder", options->cylinders,
                "'CONTENTS,GROSS,TARE', with ',emptied' for an empty that was not cleaned; repeat it")
            ->required();
        addRuleQuestion(*verb, *options, context);
        verb->callback([options, &context] { context.exitCode = loadVerb(*options, context); });
    }
}

} // namespace tarebook
