#include <memory>

#include <fmt/core.h>

#include "app/calculator.h"
#include "app/command.h"
#include "app/known_refrigerants.h"
#include "core/quantity/temperature.h"
#include "core/refrigerant/saturation.h"

namespace tarebook {

namespace {

CalculatorAnswer answer(const Catalogue& catalogue, const std::vector<std::string>& cells) {
    const auto contents = catalogue.contents(cells[0]);
    if (!contents) {
        return {{}, "contents", contents.error().text()};
    }
    const auto temperature = Temperature::parse(cells[1]);
    if (!temperature) {
        return {{}, "temperature", temperature.error().text()};
    }
    const auto found = saturationAt(catalogue, contents.value(), temperature.value());
    if (!found) {
        return {{}, "temperature", found.error().text()};
    }
    const Saturation& state = found.value();
    return {{fmt::format("{:.3f}", state.bubble.kilopascal()), fmt::format("{:.3f}", state.dew.kilopascal()),
             fmt::format("{:.3f}", state.liquid.kilogramsPerCubicMetre()),
             fmt::format("{:.2f}", state.bubbleUncertaintyPercent),
             fmt::format("{:.2f}", state.densityUncertaintyPercent)},
            {},
            {}};
}

int run(const std::string& path, const std::string& shop, CommandContext& context) {
    const auto known = knownRefrigerants(shop, context);
    if (!known) {
        return context.exitCode;
    }
    const Calculator calculator{
        {"contents", "temperature"},
        {"bubble_kpa", "dew_kpa", "liquid_density_kg_m3", "bubble_uncertainty_pct",
         "density_uncertainty_pct"},
        [&](const std::vector<std::string>& cells) { return answer(known->catalogue, cells); }};
    return runCalculator(calculator, path, context);
}

} // namespace

void addSaturationCommand(CLI::App& program, CommandContext& context) {
    CLI::App* verb =
        program.add_subcommand("saturation", "Bubble and dew pressure and liquid density of contents");
    const auto path = std::make_shared<std::string>();
    verb->add_option("--csv", *path, "table with the columns contents,temperature; - is standard input")
        ->required();
    const auto shop = std::make_shared<std::string>();
    addOwnBlendsOption(*verb, *shop);
    addJsonOption(*verb, context);
    verb->callback([path, shop, &context] { context.exitCode = run(*path, *shop, context); });
}

} // namespace tarebook
