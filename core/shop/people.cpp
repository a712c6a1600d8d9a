#include "core/shop/register.h"

#include <array>
#include <cctype>
#include <map>
#include <set>

#include "core/base/text.h"
#include "core/ledger/body_text.h"
#include "core/shop/port_marks.h"
#include "core/shop/register_changes.h"

namespace tarebook {

namespace {

constexpr const char* kFirstDate = "0000-00-00";

Person personOf(const Record& record) {
    Person person;
    person.name = record.key;
    const std::string role = bodyText(record.body, "role");
    person.role = role.empty() ? person.role : role;
    person.certificate = bodyText(record.body, "certificate");
    if (const auto expires = Date::parse(bodyText(record.body, "certificate_expires"))) {
        person.certificateExpires = expires.value();
    }
    person.active = record.body.value("active", true);
    return person;
}

System systemOf(const Record& record, const nlohmann::json& site) {
    System system;
    system.site = bodyText(record.body, "site");
    system.tag = bodyText(record.body, "tag");
    system.customer = bodyText(site, "customer");
    system.address = bodyText(site, "address");
    system.refrigerant = bodyText(record.body, "refrigerant");
    system.equipment = bodyText(record.body, "equipment");
    if (const auto nominal = record.body.find("nominal_mg");
        nominal != record.body.end() && nominal->is_number_integer()) {
        system.nominalCharge = Mass::fromMilligrams(nominal->get<std::int64_t>());
    }
    for (const PortMark& mark : portMarks()) {
        if (const auto kept = record.body.find(mark.key); kept != record.body.end() && kept->is_boolean()) {
            system.*mark.field = kept->get<bool>();
        }
    }
    return system;
}

} // namespace

bool namesNumber(const std::string& certificate) {
    // Words of the types and of the rule; a single digit is a type, too.
    static const std::set<std::string> words = {"40",   "82",        "161", "608", "section", "sec",
                                                "type", "i",         "ii",  "iii", "1",       "2",
                                                "3",    "universal", "epa", "cfr"};
    std::string word;
    for (const char letter : lowered(certificate) + ' ') {
        if (std::isalnum(static_cast<unsigned char>(letter)) != 0) {
            word += letter;
            continue;
        }
        if (!words.contains(word) && word.find_first_of("0123456789") != std::string::npos) {
            return true;
        }
        word.clear();
    }
    return false;
}

Draft draftOf(const Shop& shop, const Person& person) {
    nlohmann::json body{{"name", tidied(person.name)},
                        {"role", tidied(person.role)},
                        {"certificate", tidied(person.certificate)},
                        {"active", person.active}};
    if (person.certificateExpires) {
        body["certificate_expires"] = person.certificateExpires->text();
    }
    return shop.draft(EntryKind::personSet, body);
}

std::vector<Draft> draftsOf(Shop& shop, const System& system) {
    const auto unlessBlank = [](const std::string& text) {
        return tidied(text).empty() ? std::optional<std::string>() : std::optional<std::string>(text);
    };
    SystemChange change{system.site,
                        system.tag,
                        unlessBlank(system.customer),
                        unlessBlank(system.address),
                        system.refrigerant,
                        system.nominalCharge,
                        system.equipment};
    if (!portMarksText(system).empty()) {
        change.portMarks = portMarksOf(system);
    }
    return SystemChanges(shop).take(change);
}

Draft draftOf(const Shop& shop, const Party& party) {
    return shop.draft(EntryKind::partySet, {{"kind", party.kind},
                                            {"name", tidied(party.name)},
                                            {"address", tidied(party.address)},
                                            {"number", tidied(party.number)}});
}

std::vector<Person> people(Shop& shop) {
    std::vector<Person> people;
    const auto records = shop.store().records("person");
    if (records) {
        for (const Record& record : records.value()) {
            people.push_back(personOf(record));
        }
    }
    return people;
}

Result<std::vector<Person>> peopleExpiringUntil(Shop& shop, Date day) {
    const auto records = shop.store().recordsBetween("person", "certificate_expires", kFirstDate, day.text());
    if (!records) {
        return records.error();
    }
    std::vector<Person> people;
    for (const Record& record : records.value()) {
        people.push_back(personOf(record));
    }
    return people;
}

std::vector<System> systems(Shop& shop) {
    std::map<std::string, nlohmann::json> sites;
    if (const auto known = shop.store().records("site")) {
        for (const Record& record : known.value()) {
            sites[record.key] = record.body;
        }
    }
    std::vector<System> systems;
    const auto records = shop.store().records("system");
    if (records) {
        for (const Record& record : records.value()) {
            systems.push_back(systemOf(record, sites[bodyText(record.body, "site")]));
        }
    }
    return systems;
}

std::vector<Party> parties(Shop& shop, const std::string& kind) {
    std::vector<Party> parties;
    const auto records = shop.store().records("party");
    if (records) {
        for (const Record& record : records.value()) {
            Party party{bodyText(record.body, "kind"), bodyText(record.body, "name"),
                        bodyText(record.body, "address"), bodyText(record.body, "number")};
            if (kind.empty() || party.kind == kind) {
                parties.push_back(std::move(party));
            }
        }
    }
    return parties;
}

std::optional<System> systemNamed(Shop& shop, const std::string& key) {
    const auto record = shop.store().record("system", key);
    if (!record || !record.value()) {
        return std::nullopt;
    }
    const auto site = shop.store().record("site", bodyText(record.value()->body, "site"));
    return systemOf(*record.value(), site && site.value() ? site.value()->body : nlohmann::json());
}

} // namespace tarebook
