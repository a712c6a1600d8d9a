#include "core/shop/register_changes.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/ledger/body_text.h"
#include "core/shop/look_then_record.h"

namespace tarebook {

namespace {

/// What the cylinders hold that is of this owner.
Mass heldOf(Shop& shop, const std::string& owner) {
    const Instant after = Instant::fromSeconds(shop.now().seconds() + 1);
    const auto held = shop.store().heldBefore({after}, owner);
    std::int64_t milligrams = 0;
    if (held && !held.value().empty()) {
        for (const auto& [refrigerant, mass] : held.value().front()) {
            milligrams += mass;
        }
    }
    return Mass::fromMilligrams(milligrams);
}

} // namespace

Person changed(Shop& shop, const PersonChange& change) {
    const auto all = people(shop);
    const std::string name = tidied(change.name);
    const auto known =
        std::find_if(all.begin(), all.end(), [&](const Person& one) { return one.name == name; });
    Person person;
    if (known != all.end()) {
        person = *known;
    }
    person.name = name;
    person.role = change.role.value_or(person.role);
    person.certificate = change.certificate.value_or(person.certificate);
    person.certificateExpires = change.certificateExpires.value_or(person.certificateExpires);
    person.active = change.active.value_or(person.active);
    return person;
}

Draft draftOf(Shop& shop, const PersonChange& change) {
    const Person person = changed(shop, change);
    Draft draft = draftOf(shop, person);
    if (change.certificateExpires && !person.certificateExpires) {
        draft.body["certificate_expires"] = ""; // what a later entry does not name stays
    }
    return draft;
}

Party changed(Shop& shop, const PartyChange& change) {
    const auto all = parties(shop, change.kind);
    const std::string name = tidied(change.name);
    const auto known =
        std::find_if(all.begin(), all.end(), [&](const Party& one) { return one.name == name; });
    Party party{change.kind, name, "", ""};
    if (known != all.end()) {
        party = *known;
    }
    party.address = change.address.value_or(party.address);
    party.number = change.number.value_or(party.number);
    return party;
}

Recorded enterChange(Shop& shop, const PersonChange& change) {
    return lookThenRecord(shop, [&] { return Looked{{draftOf(shop, change)}}; });
}

Recorded enterChange(Shop& shop, const PartyChange& change) {
    return lookThenRecord(shop, [&] { return Looked{{draftOf(shop, changed(shop, change))}}; });
}

Recorded enterChange(Shop& shop, const SystemChange& change, std::string& notice) {
    return lookThenRecord(shop, [&] {
        SystemChanges changes(shop);
        notice = changes.notice(change);
        return Looked{changes.take(change)};
    });
}

std::optional<SystemChanges::Site> SystemChanges::siteNamed(const std::string& name) const {
    if (const auto said = m_sites.find(name); said != m_sites.end()) {
        return said->second;
    }
    const auto record = m_shop.store().record("site", name);
    if (!record || !record.value()) {
        return std::nullopt;
    }
    const nlohmann::json& body = record.value()->body;
    return Site{bodyText(body, "customer"), bodyText(body, "address")};
}

System SystemChanges::changed(const SystemChange& change) const {
    System system;
    system.site = tidied(change.site);
    system.tag = tidied(change.tag);
    if (const auto known = systemNamed(m_shop, system.key())) {
        system = *known;
    }
    const Site site = siteNamed(system.site).value_or(Site());
    system.customer = change.customer.value_or(site.customer);
    system.address = change.address.value_or(site.address);
    system.refrigerant = change.refrigerant.value_or(system.refrigerant);
    system.nominalCharge = change.nominalCharge.value_or(system.nominalCharge);
    system.equipment = change.equipment.value_or(system.equipment);
    if (change.portMarks) {
        setPortMarks(system, *change.portMarks);
    }
    return system;
}

std::vector<Draft> SystemChanges::take(const SystemChange& change) {
    const System system = changed(change);
    const bool hadAddress = !siteNamed(system.site).value_or(Site()).address.empty();
    std::vector<Draft> drafts;
    if (change.customer || change.address) {
        const Site said{tidied(system.customer), tidied(system.address)};
        nlohmann::json body{{"site", system.site}, {"customer", said.customer}};
        if (!said.address.empty()) {
            body["address"] = said.address;
        } else if (hadAddress) {
            body["address"] = nullptr; // what a later entry does not name stays
        }
        drafts.push_back(m_shop.draft(EntryKind::siteSet, body));
        m_sites[system.site] = said;
    }
    nlohmann::json body{{"site", system.site},
                        {"tag", system.tag},
                        {"refrigerant", system.refrigerant},
                        {"equipment", tidied(system.equipment)}};
    if (system.nominalCharge) {
        body["nominal_mg"] = system.nominalCharge->milligrams();
    } else if (const auto known = systemNamed(m_shop, system.key()); known && known->nominalCharge) {
        body["nominal_mg"] = nullptr; // what a later entry does not name stays
    }
    for (const PortMark& mark : portMarks()) {
        if (system.*mark.field) {
            body[mark.key] = *(system.*mark.field);
        } else if (change.portMarks) {
            body[mark.key] = nullptr; // a merge drops what is null
        }
    }
    drafts.push_back(m_shop.draft(EntryKind::systemSet, body));
    return drafts;
}

std::string SystemChanges::notice(const SystemChange& change) const {
    const auto site = siteNamed(tidied(change.site));
    const std::string now = tidied(change.customer.value_or(""));
    if (!site || site->customer.empty() || !change.customer || now == site->customer) {
        return {};
    }
    const Mass held = heldOf(m_shop, site->customer);
    return fmt::format("{} was of {} until now, all its systems: {}; what is recovered from now on is {}",
                       tidied(change.site), site->customer,
                       held == Mass() ? "the cylinders hold nothing of theirs"
                                      : fmt::format("the {} of theirs in cylinders stay theirs",
                                                    m_shop.display().mass(held)),
                       now.empty() ? "the shop's own" : "of " + now);
}

} // namespace tarebook
