#include <memory>

#include <fmt/core.h>
#include <nlohmann/json.hpp>

#include "app/command.h"
#include "core/quantity/mass.h"

namespace tarebook {

namespace {

int run(const std::string& text, const CommandContext& context) {
    const auto mass = Mass::parse(text);
    if (!mass) {
        fmt::print(stderr, "{}\n", mass.error().text());
        return kRefused;
    }
    if (context.json) {
        const nlohmann::json answer{{"milligrams", mass.value().milligrams()}};
        fmt::print("{}\n", answer.dump());
    } else {
        fmt::print("{}  {}\n", mass.value().kilogramsText(), mass.value().poundsFlooredText());
    }
    return kDone;
}

} // namespace

void addMassCommand(CLI::App& program, CommandContext& context) {
    CLI::App* verb = program.add_subcommand("mass", "A weight as kilograms and pounds");
    const auto text = std::make_shared<std::string>();
    verb->add_option("quantity", *text, "a weight with its unit, as \"61 lb 14 oz\"")->required();
    addJsonOption(*verb, context);
    verb->callback([text, &context] { context.exitCode = run(*text, context); });
}

} // namespace tarebook
