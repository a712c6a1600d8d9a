#include <fmt/core.h>

#include "app/output.h"
#include "app/shop_session.h"
#include "core/shop/van.h"

namespace tarebook {

namespace {

struct VanOptions : ShopOptions {
    std::string person;
    std::vector<std::string> more;
};

int vanVerb(Shop& shop, const VanOptions& options, bool json) {
    if (options.person.empty() && options.more.empty()) {
        return refuse({"nobody and no cylinder named", "name who drives, or cylinders with --with"});
    }
    const auto van = vanLoad(shop, options.person, options.more);
    if (!van) {
        return refuse(van.error());
    }
    const VehicleLoad& load = van.value().load;
    const Display display = shop.display();
    nlohmann::json list = nlohmann::json::array();
    TextTable table({"serial", "gross", "net", "shipping"});
    for (const LoadedCylinder& its : van.value().cylinders) {
        list.push_back({{"serial", its.name},
                        {"gross_kg", kilograms(its.gross)},
                        {"net_kg", kilograms(its.net)},
                        {"shipping", its.description},
                        {"division", its.division},
                        {"residue", its.residue},
                        {"problem", its.problem}});
        table.add({its.name, display.mass(its.gross), its.residue ? "residue" : display.mass(its.net),
                   its.description.empty() ? "no description" : its.description});
    }
    if (json) {
        printJson({{"cylinders", list},
                   {"gross_kg", kilograms(load.gross)},
                   {"points", load.points},
                   {"relieved", load.relieved},
                   {"findings", jsonOfFindings(load.findings)}});
    } else {
        table.print();
        printFindings(load.findings);
    }
    return kDone;
}

} // namespace

void addVanCommand(CLI::App& program, CommandContext& context) {
    CLI::App* verb = program.add_subcommand("van", "What is out with a technician, and how it may travel");
    const auto options = std::make_shared<VanOptions>();
    addShopOptions(*verb, options, context);
    addEarlierOptions(*verb, options);
    verb->add_option("PERSON", options->person, "who has it");
    verb->add_option("--with", options->more, "a serial that is to go along; repeat it");
    shopVerb(*verb, options, context,
             [options, &context](Shop& shop) { return vanVerb(shop, *options, context.json); });
}

} // namespace tarebook
