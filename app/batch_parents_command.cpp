#include "app/batch_parents_command.h"

#include <fmt/core.h>

#include "app/output.h"
#include "app/shop_session.h"
#include "core/shop/batch_parents.h"
#include "core/shop/books.h"

namespace tarebook {

namespace {

struct Options : ShopOptions {
    std::string name;
    std::string serial;
};

nlohmann::json jsonOf(const Shop& shop, const BatchParents& its) {
    nlohmann::json charges = nlohmann::json::array();
    for (const ParentCharge& one : its.charges) {
        charges.push_back({{"entry", one.entry},
                           {"occurred", shop.zone().localText(one.occurred)},
                           {"from", one.source.text()},
                           {"customer", one.customer},
                           {"refrigerant", one.gas.refrigerant},
                           {"owner", one.gas.owner},
                           {"mass_kg", kilograms(one.mass)},
                           {"foreign", one.foreign},
                           {"job", one.job},
                           {"person", one.person},
                           {"machine", one.machine}});
    }
    nlohmann::json decants = nlohmann::json::array();
    for (const HistoryLine& line : its.decants) {
        decants.push_back({{"entry", line.entry}, {"sentence", line.sentence}});
    }
    nlohmann::json kin = nlohmann::json::array();
    for (const ParentKin& one : its.kin) {
        kin.push_back(
            {{"account", one.account.text()}, {"mass_kg", kilograms(one.mass)}, {"where", one.where}});
    }
    return {{"serial", its.serial},     {"result", analysisResultWord(its.result)},
            {"analysis", its.analysis}, {"shipped_kg", kilograms(its.shipped)},
            {"parents", charges},       {"decants", decants},
            {"elsewhere", kin}};
}

void print(const Shop& shop, const BatchParents& its) {
    const Display display = shop.display();
    const std::string result(analysisResultWord(its.result));
    fmt::print("{}, {} shipped{}{}\n", its.serial, display.mass(its.shipped),
               result.empty() ? "" : ", " + result, its.analysis.empty() ? "" : ": " + its.analysis);
    TextTable table({"mass", "of", "from", "customer", "gas of", "when", "job", "by", "machine", "entry"});
    for (const ParentCharge& one : its.charges) {
        table.add({display.mass(one.mass), one.gas.refrigerant + (one.foreign ? " (another gas)" : ""),
                   accountWords(one.source), one.customer, one.gas.owner.empty() ? "the shop" : one.gas.owner,
                   shop.zone().localText(one.occurred), one.job, one.person, one.machine,
                   std::to_string(one.entry)});
    }
    table.print();
    for (const HistoryLine& line : its.decants) {
        fmt::print("  on the way, entry {}: {}\n", line.entry, line.sentence);
    }
    for (const ParentKin& one : its.kin) {
        fmt::print("  gas of the same charges: {} in {}{}\n", display.mass(one.mass),
                   accountWords(one.account), one.where.empty() ? "" : ", " + one.where);
    }
}

int parents(Shop& shop, Options& options, const CommandContext& context) {
    const auto its = batch(shop, options.name);
    if (!its) {
        return refuse(its.error());
    }
    const auto all = parentsOf(shop, its.value(), options.serial);
    if (!all) {
        return refuse(all.error());
    }
    if (context.json) {
        nlohmann::json array = nlohmann::json::array();
        for (const BatchParents& one : all.value()) {
            array.push_back(jsonOf(shop, one));
        }
        printJson(array);
        return kDone;
    }
    for (const BatchParents& one : all.value()) {
        print(shop, one);
    }
    if (all.value().empty()) {
        fmt::print("No analysis of batch {} failed; name a cylinder to see its parents all the same.\n",
                   options.name);
    }
    return kDone;
}

} // namespace

void addParentsStep(CLI::App& family, CommandContext& context) {
    const auto options = std::make_shared<Options>();
    CLI::App* verb = addStep<Options>(
        family, context, options, "parents",
        "Whose gas, which jobs and machines are behind a cylinder whose analysis failed", parents);
    verb->add_option("BATCH", options->name, "its name")->required();
    verb->add_option("SERIAL", options->serial, "of one cylinder; by default those that failed");
    addEarlierOptions(*verb, options);
}

} // namespace tarebook
