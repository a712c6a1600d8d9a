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

/// Limit and margin stand in the working of the total.
std::string limitOf(const std::optional<Finding>& total) {
    for (const std::string& line : total ? total->working : std::vector<std::string>()) {
        if (line.starts_with("limit ")) {
            return line;
        }
    }
    return total ? total->headline : "nothing that is regulated";
}

int allVans(Shop& shop, bool json) {
    const auto vans = vansOut(shop);
    if (!vans) {
        return refuse(vans.error());
    }
    nlohmann::json list = nlohmann::json::array();
    TextTable table({"technician", "cylinders", "gross", "relief", "limit and margin"});
    for (const TechniciansVan& its : vans.value()) {
        const VehicleLoad& load = its.van.load;
        const auto total = totalOf(its.van);
        list.push_back({{"person", its.person},
                        {"cylinders", its.van.cylinders.size()},
                        {"gross_kg", kilograms(load.gross)},
                        {"points", load.points},
                        {"relieved", load.relieved},
                        {"findings", jsonOfFindings(load.findings)}});
        table.add({its.person, std::to_string(its.van.cylinders.size()), shop.display().mass(load.gross),
                   load.relieved ? "within it" : "NOT within it", limitOf(total)});
    }
    if (json) {
        printJson({{"vans", list}});
    } else {
        table.print();
        fmt::print("`tarebookctl van SHOP NAME` says of one what is aboard, and why.\n");
    }
    return kDone;
}

int vanVerb(Shop& shop, const VanOptions& options, bool json) {
    if (options.person.empty() && options.more.empty()) {
        return allVans(shop, json);
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
    verb->add_option("PERSON", options->person, "who has it; everybody by default");
    verb->add_option("--with", options->more, "a serial that is to go along; repeat it");
    shopVerb(*verb, options, context,
             [options, &context](Shop& shop) { return vanVerb(shop, *options, context.json); });
}

} // namespace tarebook
