#include "core/exchange/movement_drafts.h"

#include <tuple>
#include <utility>

#include <fmt/format.h>

namespace tarebook {

namespace {

EntryKind kindCalled(const std::string& word) {
    static const std::map<std::string, EntryKind> kinds = {
        {"bought", EntryKind::bought},     {"recovered", EntryKind::recovered},
        {"charged", EntryKind::charged},   {"decanted", EntryKind::decanted},
        {"released", EntryKind::released}, {"returned", EntryKind::released}};
    const auto place = kinds.find(word);
    return place == kinds.end() ? EntryKind::released : place->second;
}

/// As papers show it; what the catalogue does not know (a reader has checked it before) stays.
std::string designationAs(const Shop& shop, const std::string& text) {
    const auto known = shop.catalogue().designation(text);
    return known ? known.value() : text;
}

std::string partyKind(AccountKind kind) {
    switch (kind) {
    case AccountKind::supplier:
        return "supplier";
    case AccountKind::reclaimer:
        return "reclaimer";
    case AccountKind::destroyer:
        return "destroyer";
    default:
        return {};
    }
}

} // namespace

MovementDrafts::MovementDrafts(Shop& shop) : m_shop(shop), m_changes(shop) {
    for (const System& system : systems(shop)) {
        m_systems[system.key()] = system;
    }
    for (const Person& person : people(shop)) {
        m_people.insert(person.name);
    }
    for (const Party& party : parties(shop, "")) {
        m_parties.insert(party.kind + ":" + party.name);
    }
    if (const auto jobs = shop.store().records("job")) {
        for (const Record& job : jobs.value()) {
            m_jobs.insert(job.key);
        }
    }
}

void MovementDrafts::add(Draft draft, const std::string& told) {
    m_first.push_back(std::move(draft));
    m_added.push_back(told);
}

void MovementDrafts::learn(const Account& account, Naming naming) {
    if (account.kind != AccountKind::system) {
        return;
    }
    const auto [place, isNew] = m_named.try_emplace(account.name, naming);
    Naming& known = place->second;
    if (!isNew && std::tie(naming.wentIn, naming.occurred) < std::tie(known.wentIn, known.occurred)) {
        known = std::move(naming);
    }
}

void MovementDrafts::learn(const MovementFacts& facts) {
    if (!facts.refrigerant.empty()) {
        const std::string name = designationAs(m_shop, facts.refrigerant);
        learn(facts.source, {false, facts.occurred, name});
        learn(facts.target, {true, facts.occurred, name});
    }
}

/// The register knows best; a sheet fills what it does not say.
std::string MovementDrafts::refrigerantIn(const std::string& system) const {
    const auto known = m_systems.find(system);
    if (known != m_systems.end() && !known->second.refrigerant.empty()) {
        return known->second.refrigerant;
    }
    const auto named = m_named.find(system);
    return named == m_named.end() ? std::string() : named->second.refrigerant;
}

void MovementDrafts::meetAccount(const Account& account) {
    const std::string kind = partyKind(account.kind);
    if (!kind.empty() && m_parties.insert(account.text()).second) {
        add(draftOf(m_shop, Party{kind, account.name, "", ""}), account.text());
    }
    if (account.kind != AccountKind::system || m_systems.contains(account.name)) {
        return;
    }
    const auto stroke = account.name.find('/');
    SystemChange change{account.name.substr(0, stroke), account.name.substr(stroke + 1)};
    change.refrigerant = refrigerantIn(account.name);
    if (!m_changes.knowsSite(change.site)) {
        change.customer = change.site; // until somebody says better
    }
    for (Draft& draft : m_changes.take(change)) {
        m_first.push_back(std::move(draft));
    }
    m_added.push_back("system " + account.name);
    m_systems[account.name] = m_changes.changed(change);
}

void MovementDrafts::meet(const MovementFacts& facts) {
    meetAccount(facts.source);
    meetAccount(facts.target);
    if (!facts.person.empty() && m_people.insert(facts.person).second) {
        Person person;
        person.name = facts.person;
        add(draftOf(m_shop, person), "person " + facts.person);
    }
    if (!facts.job.empty() && m_jobs.insert(facts.job).second) {
        add(m_shop.draft(EntryKind::jobSet, {{"job", facts.job}}), "job " + facts.job);
    }
}

Result<Draft> MovementDrafts::draftFor(const MovementFacts& facts) {
    Movement movement;
    movement.source = facts.source;
    movement.target = facts.target;
    movement.mass = facts.mass;
    movement.refrigerant = designationAs(m_shop, facts.refrigerant);
    if (facts.source.kind == AccountKind::system) {
        if (movement.refrigerant.empty()) {
            movement.refrigerant = refrigerantIn(facts.source.name);
        }
        if (movement.refrigerant.empty()) {
            return Error{fmt::format("nobody knows what is in {}", facts.source.name),
                         "name the refrigerant, or enter the system with it first"};
        }
    }
    meet(facts);
    movement.state = GasState::recovered;
    if (facts.source.kind == AccountKind::system) {
        movement.owner = m_systems[facts.source.name].customer;
    } else if (facts.source.kind == AccountKind::supplier) {
        movement.state = GasState::unused;
    } else if (facts.source.kind == AccountKind::reclaimer) {
        movement.state = GasState::reclaimed;
    }
    nlohmann::json body = movementBody(movement);
    for (const auto& [key, text] : {std::pair<const char*, const std::string&>{"job", facts.job},
                                    {"person", facts.person},
                                    {"note", facts.note}}) {
        if (!text.empty()) {
            body[key] = text;
        }
    }
    const bool opening = facts.source.kind == AccountKind::opening;
    return m_shop.draft(opening ? EntryKind::opened : kindCalled(facts.kind), body, facts.occurred);
}

} // namespace tarebook
