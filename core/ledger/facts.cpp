#include "core/ledger/facts.h"

#include "core/ledger/body_reader.h"

namespace tarebook {

namespace {

bool isMovementKind(EntryKind kind) {
    return kind == EntryKind::opened || kind == EntryKind::bought || kind == EntryKind::recovered ||
           kind == EntryKind::charged || kind == EntryKind::decanted || kind == EntryKind::released;
}

Account accountIn(BodyReader& reader, const char* key) {
    const auto account = Account::parse(reader.text(key));
    if (!account) {
        reader.refuse(key, account.error().text());
        return {};
    }
    return account.value();
}

Movement movementIn(BodyReader& reader) {
    Movement movement;
    movement.source = accountIn(reader, "from");
    movement.target = accountIn(reader, "to");
    movement.mass = reader.massAboveZero("mass_mg");
    movement.refrigerant = reader.optionalText("refrigerant");
    movement.owner = reader.optionalText("owner");
    const std::string state = reader.optionalText("state");
    if (!state.empty()) {
        const auto parsed = gasStateFrom(state);
        if (parsed) {
            movement.state = parsed.value();
        } else {
            reader.refuse("state", parsed.error().text());
        }
    }
    if (reader.ok() && movement.source == movement.target) {
        reader.refuse("to", "is the account it came from");
    }
    if (reader.ok() && movement.source.kind != AccountKind::cylinder && movement.refrigerant.empty()) {
        reader.refuse("refrigerant", "must be named where the source is no cylinder");
    }
    return movement;
}

void addWeighing(BodyReader& reader, const std::string& serial, const char* grossKey, MassFacts& facts) {
    facts.weighings.push_back({serial, reader.massAboveZero(grossKey), reader.massFromZero("tare_mg"),
                               reader.massFromZero("tolerance_mg")});
}

/// What every line of the list `lines` moves; what is wrong with a line is wrong with the entry.
template <typename Read>
void addLines(BodyReader& reader, const nlohmann::json& body, MassFacts& facts, Read read) {
    if (!reader.has("lines") || !body["lines"].is_array()) {
        reader.refuse("lines", "is missing or no list");
        return;
    }
    for (const auto& line : body["lines"]) {
        BodyReader lineReader(line);
        const std::optional<Movement> moved = read(lineReader);
        if (!lineReader.ok()) {
            reader.refuse("lines", lineReader.error().wrong);
        } else if (moved) {
            facts.movements.push_back(*moved);
        }
    }
}

void addShippedLines(BodyReader& reader, const nlohmann::json& body, MassFacts& facts) {
    const Account reclaimer{AccountKind::reclaimer, reader.text("reclaimer")};
    addLines(reader, body, facts, [&](BodyReader& line) -> std::optional<Movement> {
        const std::string serial = line.text("serial");
        const Mass mass = line.massFromZero("mass_mg");
        if (!line.ok() || mass == Mass()) {
            return std::nullopt;
        }
        return Movement{Account::cylinder(serial), reclaimer, mass, line.optionalText("refrigerant"), {}, {}};
    });
}

/// What the reclaimer weighed against what the books sent: the difference goes to or comes from `variance`.
void addSettledLines(BodyReader& reader, const nlohmann::json& body, MassFacts& facts) {
    const Account reclaimer{AccountKind::reclaimer, reader.text("reclaimer")};
    addLines(reader, body, facts, [&](BodyReader& line) -> std::optional<Movement> {
        const std::string refrigerant = line.text("refrigerant");
        const std::string owner = line.optionalText("owner");
        const std::int64_t book = line.massFromZero("book_mg").milligrams();
        const std::int64_t net = line.massFromZero("net_mg").milligrams();
        if (!line.ok() || net == book) {
            return std::nullopt;
        }
        const bool less = net < book;
        return Movement{less ? reclaimer : Account::variance(),
                        less ? Account::variance() : reclaimer,
                        Mass::fromMilligrams(less ? book - net : net - book),
                        refrigerant,
                        owner,
                        GasState::recovered};
    });
}

} // namespace

Result<MassFacts> massFactsOf(const Draft& draft) {
    MassFacts facts;
    BodyReader reader(draft.body);
    if (isMovementKind(draft.kind)) {
        if (reader.has("cylinder") && reader.has("gross_before_mg")) {
            addWeighing(reader, reader.text("cylinder"), "gross_before_mg", facts);
        }
        facts.movements.push_back(movementIn(reader));
    } else if (draft.kind == EntryKind::weighed) {
        addWeighing(reader, reader.text("serial"), "gross_mg", facts);
    } else if (draft.kind == EntryKind::evacuated) {
        facts.evacuated.push_back(reader.text("serial"));
    } else if (draft.kind == EntryKind::batchShipped) {
        addShippedLines(reader, draft.body, facts);
    } else if (draft.kind == EntryKind::batchSettled) {
        addSettledLines(reader, draft.body, facts);
    }
    if (!reader.ok()) {
        return reader.error();
    }
    return facts;
}

nlohmann::json movementBody(const Movement& movement) {
    nlohmann::json body{{"from", movement.source.text()},
                        {"to", movement.target.text()},
                        {"mass_mg", movement.mass.milligrams()}};
    if (!movement.refrigerant.empty()) {
        body["refrigerant"] = movement.refrigerant;
    }
    if (!movement.owner.empty()) {
        body["owner"] = movement.owner;
    }
    if (movement.source.kind != AccountKind::cylinder) {
        body["state"] = gasStateWord(movement.state);
    }
    return body;
}

} // namespace tarebook
