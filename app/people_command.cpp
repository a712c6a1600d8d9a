#include <fmt/core.h>

#include "app/output.h"
#include "app/shop_session.h"
#include "core/shop/port_marks.h"
#include "core/shop/register_changes.h"

namespace tarebook {

namespace {

struct PersonOptions : ShopOptions {
    PersonChange person;
    std::string role;
    std::string certificate;
    std::string expires;
    bool left = false;
    bool worksHere = false;
};
struct SystemOptions : ShopOptions {
    std::string key;
    std::string customer;
    std::string address;
    std::string refrigerant;
    std::string nominal;
    std::string equipment;
    std::string betweenPorts;
};
struct PartyOptions : ShopOptions {
    std::string kind;
    std::string name;
    std::string address;
    std::string number;
};

constexpr const char* kTakeAway = "-";
constexpr const char* kStays =
    "Of one that is on file, what is not given stays as it is; - takes away what is there.";

/// Blank is not given: it stays as it is on file, whatever a script leaves blank.
std::optional<std::string> givenIn(const std::string& text) {
    if (text.empty()) {
        return std::nullopt;
    }
    return text == kTakeAway ? std::string() : text;
}

int personVerb(Shop& shop, PersonOptions& options, bool json) {
    PersonChange& change = options.person;
    if (!change.name.empty()) {
        change.role = options.role.empty() ? std::nullopt : std::optional(options.role);
        change.certificate = givenIn(options.certificate);
        if (options.expires == kTakeAway) {
            change.certificateExpires.emplace(std::nullopt);
        } else if (!options.expires.empty()) {
            const auto day = dayIn("--expires", options.expires);
            if (!day) {
                return refuse(day.error());
            }
            change.certificateExpires = day.value();
        }
        if (options.left || options.worksHere) {
            change.active = options.worksHere;
        }
        return report(enterChange(shop, change), shop, json);
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

/// What the options say of a system. Error: one that cannot be read, or a system that is new and nobody says
/// what is in it.
Result<SystemChange> changeIn(Shop& shop, const SystemOptions& options) {
    const auto stroke = options.key.find('/');
    if (stroke == std::string::npos || stroke == 0 || stroke + 1 == options.key.size()) {
        return Error{fmt::format("{} is no SITE/TAG", options.key), "as HARBOR/DOCK-1"};
    }
    SystemChange change{options.key.substr(0, stroke), options.key.substr(stroke + 1)};
    change.customer = givenIn(options.customer);
    change.address = givenIn(options.address);
    change.equipment = givenIn(options.equipment);
    if (const auto marks = givenIn(options.betweenPorts)) {
        const auto read = readPortMarks(*marks);
        if (!read) {
            return inOption("--between-ports", read.error());
        }
        change.portMarks = read.value();
    }
    if (options.nominal == kTakeAway) {
        change.nominalCharge.emplace(std::nullopt);
    } else if (!options.nominal.empty()) {
        const auto nominal = massIn(shop, "--charge", options.nominal);
        if (!nominal) {
            return nominal.error();
        }
        change.nominalCharge = nominal.value();
    }
    if (!options.refrigerant.empty()) {
        const auto refrigerant = shop.catalogue().designation(options.refrigerant);
        if (!refrigerant) {
            return inOption("--refrigerant", refrigerant.error());
        }
        change.refrigerant = refrigerant.value();
    } else if (!systemNamed(shop, options.key)) {
        return Error{
            fmt::format("--refrigerant: {} is not on file, and nobody says what is in it", options.key),
            "name its refrigerant, as R-410A"};
    }
    return change;
}

int enterSystem(Shop& shop, const SystemOptions& options, bool json) {
    const auto change = changeIn(shop, options);
    if (!change) {
        return refuse(change.error());
    }
    std::string notice;
    const Recorded recorded = enterChange(shop, change.value(), notice);
    if (recorded.ok() && !notice.empty()) {
        fmt::print(stderr, "tarebookctl: {}\n", notice);
    }
    return report(recorded, shop, json);
}

int systemVerb(Shop& shop, const SystemOptions& options, bool json) {
    if (!options.key.empty()) {
        return enterSystem(shop, options, json);
    }
    nlohmann::json list = nlohmann::json::array();
    TextTable table(
        {"system", "customer", "refrigerant", "charge", "equipment", "between the ports", "address"});
    for (const System& one : systems(shop)) {
        nlohmann::json object{{"system", one.key()},
                              {"customer", one.customer},
                              {"refrigerant", one.refrigerant},
                              {"equipment", one.equipment},
                              {"between_ports", portMarksText(one)},
                              {"address", one.address}};
        object["nominal_kg"] = one.nominalCharge ? kilograms(*one.nominalCharge) : nlohmann::json();
        list.push_back(std::move(object));
        table.add({one.key(), one.customer, one.refrigerant,
                   one.nominalCharge ? shop.display().mass(*one.nominalCharge) : "", one.equipment,
                   portMarksText(one), one.address});
    }
    if (json) {
        printJson(list);
    } else {
        table.print();
    }
    return kDone;
}

int partyVerb(Shop& shop, const PartyOptions& options, bool json) {
    if (!options.name.empty()) {
        const PartyChange change{options.kind, options.name, givenIn(options.address),
                                 givenIn(options.number)};
        return report(enterChange(shop, change), shop, json);
    }
    nlohmann::json list = nlohmann::json::array();
    TextTable table({"kind", "name", "address", "number"});
    for (const Party& one : parties(shop, options.kind)) {
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
        verb->add_option("--role", options->role,
                         "technician, storekeeper, ...; of one who is new: technician");
        verb->add_option("--certificate", options->certificate, "kind or number");
        verb->add_option("--expires", options->expires, "last day of the certificate, 2026-10-31");
        CLI::Option* left = verb->add_flag("--left", options->left, "no longer works here");
        verb->add_flag("--works-here", options->worksHere, "works here again")->excludes(left);
        verb->footer(kStays);
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
        verb->add_option("--customer", options->customer, "whose the site is, all its systems");
        verb->add_option("--address", options->address, "of the site, as records of disposal want it");
        verb->add_option("--refrigerant", options->refrigerant, "what is in it");
        verb->add_option("--charge", options->nominal, "full charge, as '34 lb'");
        verb->add_option("--equipment", options->equipment, "comfort cooling, commercial refrigeration, ...");
        verb->add_option("--between-ports", options->betweenPorts,
                         "'heat pump', 'reversing valve', 'accumulator', 'no heat pump', ..., or 'none'");
        verb->footer(kStays);
        shopVerb(*verb, options, context,
                 [options, &context](Shop& shop) { return systemVerb(shop, *options, context.json); });
    }
    {
        CLI::App* verb = program.add_subcommand(
            "party", "List suppliers, reclaimers and destroyers, or enter or change one");
        const auto options = std::make_shared<PartyOptions>();
        addShopOptions(*verb, options, context);
        verb->add_option("KIND", options->kind, "supplier, reclaimer or destroyer")
            ->check(CLI::IsMember({"supplier", "reclaimer", "destroyer"}));
        addEarlierOptions(*verb, options,
                          verb->add_option("NAME", options->name, "enter or change this one"));
        verb->add_option("--address", options->address, "as it stands on papers");
        verb->add_option("--number", options->number, "certificate or account");
        verb->footer(kStays);
        shopVerb(*verb, options, context,
                 [options, &context](Shop& shop) { return partyVerb(shop, *options, context.json); });
    }
}

} // namespace tarebook
