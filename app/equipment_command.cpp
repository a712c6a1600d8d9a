#include <set>

#include <fmt/core.h>

#include "app/output.h"
#include "app/shop_session.h"
#include "core/shop/equipment.h"

namespace tarebook {

namespace {

nlohmann::json percentOf(const std::optional<LeakRate>& rate) {
    return rate ? nlohmann::json(static_cast<double>(rate->hundredthsOfPercent()) / 100) : nlohmann::json();
}

nlohmann::json jsonOf(const SystemLeaks& its) {
    nlohmann::json additions = nlohmann::json::array();
    for (const Addition& addition : its.additions) {
        additions.push_back({{"day", addition.day.text()}, {"mass_kg", kilograms(addition.mass)}});
    }
    nlohmann::json notCounted = nlohmann::json::array();
    for (const Addition& part : its.notCounted) {
        notCounted.push_back({{"day", part.day.text()}, {"mass_kg", kilograms(part.mass)}});
    }
    nlohmann::json answer{{"system", its.system.key()},
                          {"refrigerant", its.system.refrigerant},
                          {"additions", additions},
                          {"not_counted", notCounted},
                          {"annualized_percent", percentOf(its.annualized)},
                          {"rolling_percent", percentOf(its.rolling)}};
    answer["nominal_kg"] = its.system.nominalCharge ? kilograms(*its.system.nominalCharge) : nlohmann::json();
    if (its.annualized) {
        answer["days"] = its.annualized->days;
    }
    if (!its.problem.empty()) {
        answer["problem"] = its.problem;
    }
    if (its.threshold) {
        answer["threshold"] = {{"percent", its.threshold->percent},
                               {"over", its.annualized && its.annualized->isOver(its.threshold->percent)},
                               {"citation", its.threshold->row.section},
                               {"status", firmnessWord(its.threshold->row.firmness)},
                               {"remark", its.threshold->row.cell("remark")}};
    }
    answer["findings"] = jsonOfFindings(its.findings);
    return answer;
}

/// Where the limit of a line comes from, once for all lines that have it.
std::string sourceOf(const LeakThreshold& threshold) {
    const std::string& remark = threshold.row.cell("remark");
    const std::string firmness = firmnessWord(threshold.row.firmness);
    return fmt::format("limit {} % for {} from {} lb: {}{}{}{}{}", threshold.percent,
                       threshold.row.cell("use"), threshold.row.cell("charge_from_lb"), threshold.row.section,
                       firmness.empty() ? "" : ", ", firmness, remark.empty() ? "" : "; ", remark);
}

int leaksVerb(Shop& shop, const std::string& key, const std::string& on, bool json) {
    const auto day = dayOrToday(shop, "--on", on);
    if (!day) {
        return refuse(day.error());
    }
    const auto list = leaks(shop, day.value(), key);
    if (!list) {
        return refuse(list.error());
    }
    if (json) {
        nlohmann::json array = nlohmann::json::array();
        for (const SystemLeaks& its : list.value()) {
            array.push_back(jsonOf(its));
        }
        printJson(array);
        return kDone;
    }
    const Display display = shop.display();
    std::set<std::string> sources;
    TextTable table({"system", "charge", "last added", "a year", "in 365 days", "limit", "why no rate"});
    for (const SystemLeaks& its : list.value()) {
        table.add({its.system.key(), its.system.nominalCharge ? display.mass(*its.system.nominalCharge) : "",
                   its.additions.empty()
                       ? ""
                       : display.mass(its.additions.back().mass) + " " + its.additions.back().day.text(),
                   its.annualized ? its.annualized->text() : "", its.rolling ? its.rolling->text() : "",
                   its.threshold ? fmt::format("{} %", its.threshold->percent) : "", its.problem});
        if (its.threshold) {
            sources.insert(sourceOf(*its.threshold));
        }
    }
    table.print();
    for (const std::string& source : sources) {
        fmt::print("{}\n", source);
    }
    for (const SystemLeaks& its : list.value()) {
        printFindings(its.findings);
    }
    return kDone;
}

} // namespace

void addEquipmentCommands(CLI::App& program, CommandContext& context) {
    CLI::App* verb = program.add_subcommand("leaks", "Leak rates of the customers' equipment by the books");
    const auto options = std::make_shared<ShopOptions>();
    const auto key = std::make_shared<std::string>();
    const auto on = std::make_shared<std::string>();
    addShopOptions(*verb, options, context);
    addEarlierOptions(*verb, options);
    verb->add_option("SITE/TAG", *key, "only this one; by default all that were ever charged");
    verb->add_option("--on", *on, "day, as 2026-09-14; today by default");
    shopVerb(*verb, options, context,
             [key, on, &context](Shop& shop) { return leaksVerb(shop, *key, *on, context.json); });
}

} // namespace tarebook
