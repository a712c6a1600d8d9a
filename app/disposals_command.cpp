#include <fmt/core.h>

#include "app/output.h"
#include "app/shop_session.h"
#include "core/shop/disposals.h"

namespace tarebook {

namespace {

struct DisposalOptions : ShopOptions {
    std::string month;
};

nlohmann::json jsonOf(const DisposalMonth& its) {
    nlohmann::json appliances = nlohmann::json::array();
    for (const DisposedAppliance& one : its.appliances) {
        nlohmann::json object{{"system", one.system},     {"address", one.address},
                              {"customer", one.customer}, {"refrigerant", one.refrigerant},
                              {"day", one.day.text()},    {"recovered_kg", kilograms(one.recovered)},
                              {"counted", one.counted},   {"entries", one.entries}};
        object["full_charge_kg"] = one.fullCharge ? kilograms(*one.fullCharge) : nlohmann::json();
        appliances.push_back(std::move(object));
    }
    nlohmann::json totals = nlohmann::json::object();
    for (const auto& [refrigerant, mass] : its.totals) {
        totals[refrigerant] = kilograms(mass);
    }
    nlohmann::json transfers = nlohmann::json::array();
    for (const DisposalTransfer& one : its.transfers) {
        transfers.push_back({{"refrigerant", one.refrigerant},
                             {"mass_kg", kilograms(one.mass)},
                             {"to", one.to},
                             {"day", one.day.text()},
                             {"batch", one.batch}});
    }
    return {{"month", its.month.text()},
            {"appliances", appliances},
            {"totals_kg", totals},
            {"transfers", transfers},
            {"findings", jsonOfFindings(its.findings)}};
}

void print(const Shop& shop, const DisposalMonth& its) {
    const Display display = shop.display();
    TextTable appliances(
        {"day", "location", "address", "owner", "refrigerant", "full charge", "recovered", "counts"});
    for (const DisposedAppliance& one : its.appliances) {
        appliances.add({one.day.text(), one.system, one.address, one.customer, one.refrigerant,
                        one.fullCharge ? display.mass(*one.fullCharge) : "", display.mass(one.recovered),
                        one.counted ? "yes" : "no"});
    }
    appliances.print();
    TextTable totals({"total of " + its.month.text(), "recovered"});
    for (const auto& [refrigerant, mass] : its.totals) {
        totals.add({refrigerant, fmt::format("{}, {}", display.mass(mass), mass.kilogramsText())});
    }
    totals.print();
    TextTable transfers({"sent", "refrigerant", "mass", "to", "batch"});
    for (const DisposalTransfer& one : its.transfers) {
        transfers.add({one.day.text(), one.refrigerant, display.mass(one.mass), one.to, one.batch});
    }
    transfers.print();
    printFindings(its.findings);
}

int disposalsVerb(Shop& shop, const DisposalOptions& options, bool json) {
    const auto month =
        options.month.empty() ? Result<MonthYear>(shop.today().month()) : MonthYear::parse(options.month);
    if (!month) {
        return refuse(inOption("--month", month.error()));
    }
    const auto its = disposals(shop, month.value());
    if (!its) {
        return refuse(its.error());
    }
    if (json) {
        printJson(jsonOf(its.value()));
    } else {
        print(shop, its.value());
    }
    return kDone;
}

} // namespace

void addDisposalsCommand(CLI::App& program, CommandContext& context) {
    CLI::App* verb = program.add_subcommand(
        "disposals",
        "Records of appliances that were disposed of: each one, the month's totals, what was sent");
    const auto options = std::make_shared<DisposalOptions>();
    addShopOptions(*verb, options, context);
    addEarlierOptions(*verb, options);
    verb->add_option("--month", options->month, "calendar month, as 2026-09; this one by default");
    shopVerb(*verb, options, context,
             [options, &context](Shop& shop) { return disposalsVerb(shop, *options, context.json); });
}

} // namespace tarebook
