#include <fmt/core.h>

#include "app/output.h"
#include "app/shop_session.h"
#include "core/shop/port_marks.h"
#include "core/shop/register.h"

namespace tarebook {

namespace {

struct PersonOptions : ShopOptions {
    Person person;
    std::string expires;
    bool left = false;
};
struct SystemOptions : ShopOptions {
    System system;
    std::string key;
    std::string nominal;
    std::string betweenPorts;
};
struct PartyOptions : ShopOptions {
    Party party;
};

int personVerb(Shop& shop, PersonOptions& options, bool json) {
    if (!options.person.name.empty()) {
        if (!options.expires.empty()) {
            const auto day = dayIn("--expires", options.expires);
            if (!day) {
                return refuse(day.error());
            }
            options.person.certificateExpires = day.value();
        }
        options.person.active = !options.left;
        return report(shop.record({draftOf(shop, options.person)}), shop, json);
    }
    nlohmann::json list = nlohmann::json::array();
    TextTable table({"name", "role", "certificate", "until", "active"});
    for (const Person& one : people(shop)) {
        const std::string until = one.certificateExpires ? one.certificateExpires->text() : "";
        list.push_back({{"name", one.name},
                        {"role", one.role},
                        {"certificate", one.certificate},
                        {"certificate_expires", until},
                        {"active", one.active}});
        table.add({one.name, one.role, one.certificate, until, one.active ? "yes" : "no"});
    }
    if (json) {
        printJson(list);
    } else {
        table.print();
    }
    return kDone;
}

int systemVerb(Shop& shop, SystemOptions& options, bool json) {
    if (!options.key.empty()) {
        const auto stroke = options.key.find('/');
        const auto nominal = massIn(shop, "--charge", options.nominal);
        if (stroke == std::string::npos || stroke == 0 || stroke + 1 == options.key.size()) {
            return refuse({fmt::format("{} is no SITE/TAG", options.key), "as HARBOR/DOCK-1"});
        }
        if (!nominal) {
            return refuse(nominal.error());
        }
        const auto refrigerant = shop.catalogue().designation(options.system.refrigerant);
        if (!refrigerant) {
            return refuse(inOption("--refrigerant", refrigerant.error()));
        }
        options.system.refrigerant = refrigerant.value();
        options.system.site = options.key.substr(0, stroke);
        options.system.tag = options.key.substr(stroke + 1);
        options.system.nominalCharge = nominal.value();
        if (options.betweenPorts.empty()) {
            keepPortMarks(shop, options.system);
        } else if (const auto read = readPortMarks(options.betweenPorts, options.system); !read) {
            return refuse(inOption("--between-ports", read.error()));
        }
        return report(shop.record(draftsOf(shop, options.system)), shop, json);
    }
    nlohmann::json list = nlohmann::json::array();
    TextTable table({"system", "customer", "refrigerant", "charge", "equipment", "between the ports"});
    for (const System& one : systems(shop)) {
        nlohmann::json object{{"system", one.key()},
                              {"customer", one.customer},
                              {"refrigerant", one.refrigerant},
                              {"equipment", one.equipment},
                              {"between_ports", portMarksText(one)}};
        object["nominal_kg"] = one.nominalCharge ? kilograms(*one.nominalCharge) : nlohmann::json();
        list.push_back(std::move(object));
        table.add({one.key(), one.customer, one.refrigerant,
                   one.nominalCharge ? shop.display().mass(*one.nominalCharge) : "", one.equipment,
                   portMarksText(one)});
    }
    if (json) {
        printJson(list);
    } else {
        table.print();
    }
    return kDone;
}

int partyVerb(Shop& shop, const PartyOptions& options, bool json) {
    if (!options.party.name.empty()) {
        return report(shop.record({draftOf(shop, options.party)}), shop, json);
    }
    nlohmann::json list = nlohmann::json::array();
    TextTable table({"kind", "name", "address", "number"});
    for (const Party& one : parties(shop, options.party.kind)) {
        list.push_back(
            {{"kind", one.kind}, {"name", one.name}, {"address", one.address}, {"number", one.number}});
        table.add({one.kind, one.name, one.address, one.number});
    }
    if (json) {
        printJson(list);
    } else {
        table.print();
    }
    return kDone;
}

} // namespace

void addPeopleCommands(CLI::App& program, CommandContext& context) {
    {
        CLI::App* verb =
            program.add_subcommand("person", "List the people of the shop, or enter or change one");
        const auto options = std::make_shared<PersonOptions>();
        addShopOptions(*verb, options, context);
        addEarlierOptions(*verb, options,
                          verb->add_option("NAME", options->person.name, "enter or change this one"));
        verb->add_option("--role", options->person.role, "technician, storekeeper, ...")
            ->capture_default_str();
        verb->add_option("--certificate", options->person.certificate, "kind or number");
        verb->add_option("--expires", options->expires, "last day of the certificate, 2026-10-31");
        verb->add_flag("--left", options->left, "no longer works here");
        shopVerb(*verb, options, context,
                 [options, &context](Shop& shop) { return personVerb(shop, *options, context.json); });
    }
    {
        CLI::App* verb =
            program.add_subcommand("system", "List customers' equipment, or enter or change one");
        const auto options = std::make_shared<SystemOptions>();
        addShopOptions(*verb, options, context);
        addEarlierOptions(
            *verb, options,
            verb->add_option("SITE/TAG", options->key, "enter or change this one, as HARBOR/DOCK-1"));
        verb->add_option("--customer", options->system.customer, "whose it is");
        verb->add_option("--refrigerant", options->system.refrigerant, "what is in it");
        verb->add_option("--charge", options->nominal, "full charge, as '34 lb'");
        verb->add_option("--equipment", options->system.equipment,
                         "comfort cooling, commercial refrigeration, ...");
        verb->add_option(
            "--between-ports", options->betweenPorts,
            "'heat pump', 'reversing valve', 'accumulator', 'no heat pump', ..., or 'none', as on "
            "file by default");
        shopVerb(*verb, options, context,
                 [options, &context](Shop& shop) { return systemVerb(shop, *options, context.json); });
    }
    {
        CLI::App* verb = program.add_subcommand(
            "party", "List suppliers, reclaimers and destroyers, or enter or change one");
        const auto options = std::make_shared<PartyOptions>();
        addShopOptions(*verb, options, context);
        verb->add_option("KIND", options->party.kind, "supplier, reclaimer or destroyer")
            ->check(CLI::IsMember({"supplier", "reclaimer", "destroyer"}));
        addEarlierOptions(*verb, options,
                          verb->add_option("NAME", options->party.name, "enter or change this one"));
        verb->add_option("--address", options->party.address, "as it stands on papers");
        verb->add_option("--number", options->party.number, "certificate or account");
        shopVerb(*verb, options, context,
                 [options, &context](Shop& shop) { return partyVerb(shop, *options, context.json); });
    }
}

} // namespace tarebook
