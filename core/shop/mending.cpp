#include "core/shop/mending.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/ledger/body_text.h"
#include "core/ledger/facts.h"
#include "core/shop/register.h"

namespace tarebook {

namespace {

Mass massIn(const Draft& draft, const char* key) {
    return Mass::fromMilligrams(draft.body.value(key, std::int64_t{0}));
}

/// ` --name VALUE`, or nothing.
std::string option(const char* name, const std::string& value) {
    return value.empty() ? std::string() : fmt::format(" {} {}", name, shellWord(value));
}

std::string when(const Shop& shop, const Draft& draft) {
    return draft.occurred == shop.now() ? std::string()
                                        : option("--occurred", shop.zone().isoText(draft.occurred));
}

/// Whether `checkin` gives the gas the owner and the state that the entry does.
bool ownerFollows(Shop& shop, const Movement& movement) {
    switch (movement.source.kind) {
    case AccountKind::cylinder:
        return true;
    case AccountKind::system: {
        const auto system = systemNamed(shop, movement.source.name);
        return system && system->customer == movement.owner && movement.state == GasState::recovered;
    }
    case AccountKind::supplier:
        return movement.owner.empty() && movement.state == GasState::unused;
    case AccountKind::reclaimer:
        return movement.owner.empty() && movement.state == GasState::reclaimed;
    default:
        return movement.owner.empty() && movement.state == GasState::recovered;
    }
}

std::string movementCommand(Shop& shop, const Draft& draft) {
    const auto facts = massFactsOf(draft);
    if (!facts || facts.value().movements.size() != 1 ||
        !ownerFollows(shop, facts.value().movements.front())) {
        return {};
    }
    const Movement& movement = facts.value().movements.front();
    const bool inward = movement.target.kind == AccountKind::cylinder;
    const std::string& serial = inward ? movement.target.name : movement.source.name;
    const std::string other = (inward ? movement.source : movement.target).text();
    std::string line = commandBegin(shop, "checkin") + " " + shellWord(serial);
    const bool weighed = draft.body.contains("gross_after_mg") && bodyText(draft.body, "cylinder") == serial;
    if (weighed && draft.body.contains("gross_before_mg")) {
        line += option("--gross-before", exactMass(shop, massIn(draft, "gross_before_mg")));
        line += option("--gross", exactMass(shop, massIn(draft, "gross_after_mg")));
    } else {
        line += option("--mass", exactMass(shop, movement.mass));
    }
    line += option(inward ? "--from" : "--to", other);
    if (movement.source.kind != AccountKind::cylinder) {
        line += option("--refrigerant", movement.refrigerant);
    }
    for (const auto& [name, key] : {std::pair{"--job", "job"}, std::pair{"--person", "person"},
                                    std::pair{"--machine", "machine"}, std::pair{"--note", "note"}}) {
        line += option(name, bodyText(draft.body, key));
    }
    if (bodyText(draft.body, "purpose") == "disposal") {
        line += " --disposal";
    }
    return line + when(shop, draft) + " --stays-out";
}

} // namespace

std::string shellWord(const std::string& text) {
    constexpr std::string_view kPlain =
        "0123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ-_./:+";
    if (!text.empty() && text.find_first_not_of(kPlain) == std::string::npos) {
        return text;
    }
    std::string word = "'";
    for (const char character : text) {
        word += character == '\'' ? std::string("'\\''") : std::string(1, character);
    }
    return word + "'";
}

std::string exactMass(const Shop& shop, Mass mass) {
    const std::string shown = shop.display().mass(mass);
    const auto read = Mass::parse(shown);
    return read && read.value() == mass ? shown : mass.kilogramsText();
}

std::string commandBegin(Shop& shop, const std::string& verb) {
    return fmt::format("tarebookctl {} {}", verb, shellWord(shop.store().path()));
}

std::string commandOf(Shop& shop, const Draft& draft) {
    const std::string serial = shellWord(bodyText(draft.body, "serial"));
    switch (draft.kind) {
    case EntryKind::marksRestated:
        return fmt::format("{} {} {} {}", commandBegin(shop, "tare"), serial,
                           shellWord(exactMass(shop, massIn(draft, "tare_mg"))),
                           shellWord(bodyText(draft.body, "reason")));
    case EntryKind::entryReversed:
        return fmt::format("{} {} {}", commandBegin(shop, "reverse"), draft.body.value("entry", Sequence{0}),
                           shellWord(bodyText(draft.body, "reason")));
    case EntryKind::weighed:
        return fmt::format("{} {}{}{}", commandBegin(shop, "checkin"), serial,
                           option("--gross", exactMass(shop, massIn(draft, "gross_mg"))), when(shop, draft));
    case EntryKind::opened:
    case EntryKind::bought:
    case EntryKind::recovered:
    case EntryKind::charged:
    case EntryKind::decanted:
    case EntryKind::released:
        return movementCommand(shop, draft);
    default:
        return {};
    }
}

} // namespace tarebook
