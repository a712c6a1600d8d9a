#include <fmt/core.h>

#include "app/output.h"
#include "app/shop_session.h"
#include "core/papers/paper_parts.h"
#include "core/shop/card.h"
#include "core/shop/finding_json.h"
#include "core/shop/fleet.h"
#include "core/shop/today.h"

namespace tarebook {

namespace {

std::string nameOfSeverity(int severity) {
    return severity == 0 ? "" : severityWord(static_cast<Severity>(severity - 1));
}

Mass milligrams(std::int64_t value) {
    return Mass::fromMilligrams(value);
}

nlohmann::json jsonOf(const FleetRow& row) {
    return {{"serial", row.serial},
            {"specification", row.specification},
            {"water_capacity_kg", kilograms(milligrams(row.waterCapacityMg))},
            {"tare_kg", kilograms(milligrams(row.tareMg))},
            {"net_kg", kilograms(milligrams(row.netMg))},
            {"content", row.content},
            {"owner", row.owner},
            {"condition", row.condition},
            {"holder", row.holder},
            {"job", row.job},
            {"place", row.place},
            {"due", row.due},
            {"limit_kg", row.limitMg == 0 ? nlohmann::json() : kilograms(milligrams(row.limitMg))},
            {"severity", nameOfSeverity(row.severity)},
            {"finding", row.finding}};
}

struct FleetAsked : ShopOptions {
    std::string words;
    std::string condition;
    std::string on;
};

int listFleet(Shop& shop, const FleetAsked& asked, bool json) {
    const auto day = dayOrToday(shop, "--on", asked.on);
    if (!day) {
        return refuse(day.error());
    }
    const auto rows = fleetOn(shop, asked.words, asked.condition, day.value());
    if (!rows) {
        return refuse(rows.error());
    }
    if (json) {
        nlohmann::json list = nlohmann::json::array();
        for (const FleetRow& row : rows.value()) {
            list.push_back(jsonOf(row));
        }
        printJson(list);
        return kDone;
    }
    const Display display = shop.display();
    TextTable table(
        {"serial", "specification", "net", "limit", "contents", "condition", "with", "due", "finding"});
    for (const FleetRow& row : rows.value()) {
        table.add({row.serial, row.specification, display.mass(milligrams(row.netMg)),
                   row.limitMg == 0 ? "" : display.limit(milligrams(row.limitMg)), row.content, row.condition,
                   row.holder, row.due,
                   row.finding.empty() ? "" : nameOfSeverity(row.severity) + ": " + row.finding});
    }
    table.print();
    return kDone;
}

nlohmann::json jsonOf(const Limits& limits) {
    if (!limits.known) {
        return {{"known", false}, {"problem", limits.problem}};
    }
    return {{"known", true},
            {"contents", limits.contents},
            {"max_net_kg", kilograms(limits.net)},
            {"lawful_net_kg", kilograms(limits.lawful)},
            {"room_kg", kilograms(limits.room)},
            {"max_gross_kg", kilograms(limits.grossToStop)},
            {"governing_rule", limits.governingRule},
            {"pressure_55c_kpa_gauge", limits.at55.kilopascal()},
            {"pressure_limit_kpa_gauge", limits.pressureLimit.kilopascal()},
            {"pressure_ok", limits.pressureSuits},
            {"working", limits.working}};
}

nlohmann::json jsonOf(const Holding& content) {
    nlohmann::json parts = nlohmann::json::array();
    for (const auto& [gas, mass] : content.parts()) {
        parts.push_back({{"refrigerant", gas.refrigerant},
                         {"owner", gas.owner},
                         {"state", gasStateWord(gas.state)},
                         {"mass_kg", kilograms(milligrams(mass))}});
    }
    return parts;
}

nlohmann::json jsonOf(const Custody& custody) {
    nlohmann::json object{{"person", custody.person},
                          {"job", custody.job},
                          {"from", custody.from.text()},
                          {"entry", custody.entry}};
    object["until"] = custody.until ? nlohmann::json(custody.until->text()) : nlohmann::json();
    return object;
}

nlohmann::json jsonOf(const HistoryLine& line) {
    nlohmann::json object{
        {"entry", line.entry}, {"occurred", line.occurred.text()}, {"recorded", line.recorded.text()},
        {"kind", line.kind},   {"sentence", line.sentence},        {"operator", line.operatorName}};
    if (line.reversedBy) {
        object["reversed_by"] = *line.reversedBy;
    }
    return object;
}

template <typename Item> nlohmann::json listOf(const std::vector<Item>& items) {
    nlohmann::json list = nlohmann::json::array();
    for (const Item& item : items) {
        list.push_back(jsonOf(item));
    }
    return list;
}

nlohmann::json jsonOf(const Card& card) {
    const Nameplate& plate = card.state.plate;
    nlohmann::json findings = nlohmann::json::array();
    for (const Finding& finding : card.findings) {
        findings.push_back(jsonOf(finding));
    }
    return {
        {"serial", plate.serial},
        {"flammable_rated", plate.flammableRated ? nlohmann::json(*plate.flammableRated) : nlohmann::json()},
        {"burn_out", plate.burnOut},
        {"clean_service", plate.cleanService},
        {"specification", plate.specification.text()},
        {"water_capacity_kg", kilograms(plate.waterCapacity.water())},
        {"tare_kg", kilograms(plate.tare)},
        {"manufactured", plate.manufactured.text()},
        {"last_test", plate.lastTest ? plate.lastTest->text() : ""},
        {"owner", plate.owner.text()},
        {"overfill_sensor", plate.overfillSensor},
        {"refrigerant", plate.refrigerant},
        {"condition", conditionWord(card.state.condition)},
        {"holder", card.state.holder},
        {"job", card.state.job},
        {"place", card.state.place},
        {"net_kg", kilograms(card.state.content.total())},
        {"gross_kg",
         kilograms(milligrams(plate.tare.milligrams() + card.state.content.total().milligrams()))},
        {"content", contentName(card.state.content)},
        {"parts", jsonOf(card.state.content)},
        {"limits", jsonOf(card.limits)},
        {"due", card.due},
        {"exchange", card.exchange},
        {"fill_allowed", card.fillAllowed},
        {"ship_allowed", card.shipAllowed},
        {"findings", findings},
        {"custody", listOf(card.custody)},
        {"history", listOf(card.history)}};
}

void printCustody(const Shop& shop, const std::vector<Custody>& custody) {
    TextTable table({"who", "job", "from", "until", "entry"});
    for (const Custody& one : custody) {
        table.add({one.person, one.job, shop.zone().localText(one.from),
                   one.until ? shop.zone().localText(*one.until) : "still", std::to_string(one.entry)});
    }
    if (!table.empty()) {
        table.print();
    }
}

void printHistory(const Shop& shop, const std::vector<HistoryLine>& history) {
    TextTable table({"entry", "happened", "what"});
    for (const HistoryLine& line : history) {
        table.add(
            {std::to_string(line.entry), shop.zone().localText(line.occurred),
             line.sentence + (line.reversedBy ? fmt::format(" (reversed by {})", *line.reversedBy) : "")});
    }
    table.print();
}

void printCard(const Shop& shop, const Card& card) {
    const Nameplate& plate = card.state.plate;
    const Display display = shop.display();
    fmt::print("{}  {}  WC {}  tare {}  made {}{}  {}\n", plate.serial, plate.specification.text(),
               display.mass(plate.waterCapacity.water()), display.mass(plate.tare), plate.manufactured.text(),
               plate.lastTest ? "  tested " + plate.lastTest->text() : "", plate.owner.text());
    fmt::print("{}{}{}\n", conditionWord(card.state.condition),
               card.state.holder.empty() ? ", in the shop" : ", with " + card.state.holder,
               card.state.job.empty() ? "" : ", job " + card.state.job);
    if (plate.flammableRated || plate.burnOut) {
        fmt::print("{}{}{}\n",
                   !plate.flammableRated   ? ""
                   : *plate.flammableRated ? "rated for flammable gas"
                                           : "not rated for flammable gas",
                   plate.flammableRated && plate.burnOut ? ", " : "",
                   plate.burnOut ? "kept for burn-out" : "");
    }
    fmt::print("retest due {}; may be filled: {}; may travel as it stands: {}\n", card.due,
               card.fillAllowed ? "yes" : "no", card.shipAllowed ? "yes" : "no");
    if (card.state.content.empty()) {
        fmt::print("empty{}\n", card.state.evacuated ? ", evacuated" : "");
    }
    for (const auto& [gas, mass] : card.state.content.parts()) {
        fmt::print("holds {} {}, {}, owner {}\n", display.mass(milligrams(mass)), gas.refrigerant,
                   gasStateWord(gas.state), gas.owner.empty() ? "the shop" : gas.owner);
    }
    if (card.limits.known) {
        const bool filled = stopWeightOf(shop, card.state).gross != kNotToFill; // as on tag and slip
        fmt::print("limit {} of {} ({}), {}, {}\n", display.limit(card.limits.net), card.limits.contents,
                   card.limits.governingRule, roomText(display, card.limits.room),
                   filled ? fmt::format("stop at {} gross", display.limit(card.limits.grossToStop))
                          : std::string(kNotToFill));
        for (const std::string& line : card.limits.working) {
            fmt::print("    {}\n", line);
        }
        fmt::print("    pressure: {}\n", card.limits.pressureWorking);
    } else {
        fmt::print("no limit: {}\n", card.limits.problem);
    }
    for (const std::string& said : card.exchange) {
        fmt::print("{}\n", said);
    }
    printFindings(card.findings);
    printCustody(shop, card.custody);
    printHistory(shop, card.history);
}

int listAlerts(Shop& shop, const std::string& on, int most, bool json) {
    const auto day = dayOrToday(shop, "--on", on);
    if (!day) {
        return refuse(day.error());
    }
    const auto list = today(shop, day.value(), most);
    if (!list) {
        return refuse(list.error());
    }
    if (json) {
        nlohmann::json alerts = nlohmann::json::array();
        for (const Alert& alert : list.value().alerts) {
            nlohmann::json object = jsonOf(alert.finding);
            object["subject"] = alert.subject;
            object["next_step"] = remedyWord(alert.remedy);
            alerts.push_back(std::move(object));
        }
        printJson({{"on", day.value().text()},
                   {"dangers", list.value().dangers},
                   {"refusals", list.value().refusals},
                   {"cautions", list.value().cautions},
                   {"alerts", alerts}});
        return kDone;
    }
    TextTable table({"severity", "about", "what", "next step"});
    for (const Alert& alert : list.value().alerts) {
        table.add({severityWord(alert.finding.severity), alert.subject, alert.finding.headline,
                   alert.finding.remedy});
    }
    if (table.empty()) {
        fmt::print("{}: nothing needs doing\n", day.value().text());
    } else {
        table.print();
    }
    return kDone;
}

} // namespace

void addFleetCommands(CLI::App& program, CommandContext& context) {
    {
        CLI::App* verb = program.add_subcommand("fleet", "List the cylinders");
        const auto asked = std::make_shared<FleetAsked>();
        addShopOptions(*verb, asked, context);
        addEarlierOptions(*verb, asked);
        verb->add_option("--find", asked->words,
                         "words that must be in serial, contents, holder, job, place, owner, condition or "
                         "finding, as 'retest passed'; due:2026-11 for a month");
        verb->add_option("--condition", asked->condition,
                         "serviceable, held, condemned, away, retired or lost");
        verb->add_option("--on", asked->on, "day whose findings are shown, as 2026-09-14; today by default");
        shopVerb(*verb, asked, context,
                 [asked, &context](Shop& shop) { return listFleet(shop, *asked, context.json); });
    }
    const auto cardVerb = [&](const char* name, const char* help, bool custodyOnly) {
        CLI::App* verb = program.add_subcommand(name, help);
        const auto options = std::make_shared<ShopOptions>();
        const auto serial = std::make_shared<std::string>();
        addShopOptions(*verb, options, context);
        verb->add_option("SERIAL", *serial, "of the cylinder")->required();
        addEarlierOptions(*verb, options);
        shopVerb(*verb, options, context, [serial, custodyOnly, &context](Shop& shop) {
            const auto its = card(shop, *serial);
            if (!its) {
                return refuse(its.error());
            }
            if (context.json) {
                printJson(custodyOnly ? listOf(its.value().custody) : jsonOf(its.value()));
            } else if (custodyOnly) {
                printCustody(shop, its.value().custody);
            } else {
                printCard(shop, its.value());
            }
            return kDone;
        });
    };
    cardVerb("card", "All about one cylinder", false);
    cardVerb("who", "Who had a cylinder and when", true);
    {
        CLI::App* verb = program.add_subcommand("alerts", "What needs doing, worst first");
        const auto options = std::make_shared<ShopOptions>();
        const auto on = std::make_shared<std::string>();
        const auto most = std::make_shared<int>(0);
        addShopOptions(*verb, options, context);
        addEarlierOptions(*verb, options);
        verb->add_option("--on", *on, "day, as 2026-09-14; today by default");
        verb->add_option("--most", *most, "so many at most; 0 is all")->capture_default_str();
        shopVerb(*verb, options, context,
                 [on, most, &context](Shop& shop) { return listAlerts(shop, *on, *most, context.json); });
    }
}

} // namespace tarebook
