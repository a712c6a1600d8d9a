#include "core/ledger/cylinder_state.h"

#include <algorithm>
#include <utility>

#include "core/ledger/body_reader.h"
#include "core/ledger/nameplate_body.h"

namespace tarebook {

namespace {

bool names(const nlohmann::json& body, const char* key, const std::string& text) {
    const auto field = body.find(key);
    return field != body.end() && field->is_string() && field->get_ref<const std::string&>() == text;
}

void restateMarks(CylinderState& state, const nlohmann::json& body) {
    const Mass before = state.plate.tare;
    restate(state.plate, body);
    if (body.contains("tare_mg")) {
        const bool weighed = body.value("weighed", nlohmann::json()) == true;
        const Mass marked = state.markedTare.value_or(before);
        state.markedTare = weighed ? std::optional(marked) : std::nullopt;
    }
    if (state.plate.refrigerant == "mixed") {
        state.mixedAccepted = true;
    }
}

/// Condemned is for ever.
void judge(CylinderState& state, Condition fitness, std::string note) {
    if (state.fitness != Condition::condemned) {
        state.fitness = fitness;
        state.fitnessNote = std::move(note);
    }
}

/// It is here: in the condition in which it was last judged to be.
void beHere(CylinderState& state) {
    state.condition = state.fitness;
    state.conditionNote = state.fitnessNote;
}

void inspect(CylinderState& state, const nlohmann::json& body) {
    BodyReader reader(body);
    const std::string result = reader.optionalText("result");
    if (state.condition == Condition::retired || (result == "found" && state.condition != Condition::lost)) {
        return;
    }
    if (result == "lost") {
        state.condition = Condition::lost;
        state.conditionNote = reader.optionalText("note");
        return;
    }
    if (const auto harm = harmFrom(result)) {
        state.harms.add(*harm);
        judge(state, Condition::held, reader.optionalText("note"));
    } else if (result != "found") {
        // A second look may take back what the eye saw; the rest is for a tester.
        state.harms.remove(Harm::damage);
        state.harms.remove(Harm::leak);
        if (state.harms.empty()) {
            judge(state, Condition::serviceable, "");
        }
    }
    beHere(state);
}

/// A further evacuation without a purge leaves it purged.
void evacuate(CylinderState& state, const nlohmann::json& body) {
    BodyReader reader(body);
    state.evacuated = true;
    if (std::string gas = reader.optionalText("purged_with"); !gas.empty()) {
        state.purgedWith = std::move(gas);
    }
}

bool holdsRecovered(const Holding& content) {
    return std::any_of(content.parts().begin(), content.parts().end(),
                       [](const auto& part) { return part.first.state == GasState::recovered; });
}

void retest(CylinderState& state, const nlohmann::json& body) {
    restate(state.plate, body);
    state.recoveryUse = holdsRecovered(state.content);
    state.harmsBefore.add(state.harms);
    state.harms.clear();
    state.markedTare.reset();
    judge(state, Condition::serviceable, "");
    if (state.condition == Condition::held) {
        beHere(state);
    }
}

void handOut(CylinderState& state, const Entry& entry) {
    BodyReader reader(entry.body);
    state.holder = reader.optionalText("person");
    state.job = reader.optionalText("job");
    if (entry.kind == EntryKind::handedOut || !state.outSince) {
        state.outSince = entry.occurred;
    }
    if (state.condition == Condition::lost) {
        beHere(state);
    }
}

void comeBack(CylinderState& state, const nlohmann::json& body) {
    BodyReader reader(body);
    state.holder.clear();
    state.job.clear();
    state.outSince.reset();
    if (reader.has("place")) {
        state.place = reader.optionalText("place");
    }
}

void leaveFleet(CylinderState& state, Condition condition, const nlohmann::json& body) {
    const std::string reason = BodyReader(body).optionalText("reason");
    if (condition == Condition::condemned) {
        judge(state, condition, reason);
    }
    if (state.condition != Condition::retired) {
        state.condition = condition;
        state.conditionNote = reason;
    }
}

void settleBatch(CylinderState& state, const nlohmann::json& body) {
    state.batch.clear();
    if (!body.contains("exchanged") || !body["exchanged"].is_array()) {
        return;
    }
    for (const auto& line : body["exchanged"]) {
        if (line.is_object() && names(line, "out", state.plate.serial)) {
            state.condition = Condition::retired;
            state.conditionNote = "exchanged at the reclaimer";
        }
    }
}

void applyBatch(CylinderState& state, const Entry& entry) {
    BodyReader reader(entry.body);
    switch (entry.kind) {
    case EntryKind::batchPrepared:
        state.batch = reader.optionalText("batch");
        break;
    case EntryKind::batchShipped:
        state.batch = reader.optionalText("batch");
        state.condition = Condition::away;
        state.conditionNote = reader.optionalText("reclaimer");
        state.holder.clear();
        state.job.clear();
        state.outSince.reset();
        break;
    case EntryKind::batchSettled:
        settleBatch(state, entry.body);
        break;
    default:
        break;
    }
}

/// `returned` also brings a cylinder back from a reclaimer or a tester.
void applyCustody(CylinderState& state, const Entry& entry) {
    switch (entry.kind) {
    case EntryKind::handedOut:
    case EntryKind::handedOver:
        handOut(state, entry);
        break;
    case EntryKind::returned:
        comeBack(state, entry.body);
        if (state.condition == Condition::away || state.condition == Condition::lost) {
            beHere(state);
        }
        break;
    case EntryKind::locationChanged:
        state.place = BodyReader(entry.body).optionalText("place");
        break;
    default:
        applyBatch(state, entry);
        break;
    }
}

void applyMarks(CylinderState& state, const Entry& entry) {
    switch (entry.kind) {
    case EntryKind::marksRestated:
        restateMarks(state, entry.body);
        break;
    case EntryKind::inspected:
        inspect(state, entry.body);
        break;
    case EntryKind::retested:
        retest(state, entry.body);
        break;
    case EntryKind::condemned:
        leaveFleet(state, Condition::condemned, entry.body);
        break;
    case EntryKind::retired:
        if (names(entry.body, "serial", state.plate.serial)) { // the one that came for it stays
            leaveFleet(state, Condition::retired, entry.body);
        }
        break;
    case EntryKind::evacuated:
        evacuate(state, entry.body);
        break;
    case EntryKind::findingOverruled:
        state.overruled.push_back(BodyReader(entry.body).optionalText("rule"));
        break;
    default:
        applyCustody(state, entry);
        break;
    }
}

/// What the scale said, where the entry has a reading of this cylinder as found.
void applyReading(CylinderState& state, const Entry& entry, const Holding& before) {
    if (!entry.body.contains("gross_mg") && !entry.body.contains("gross_before_mg")) {
        return; // nothing was weighed
    }
    const auto facts = massFactsOf(entry);
    if (!facts) {
        return;
    }
    for (const Weighing& weighing : facts.value().weighings) {
        if (weighing.serial != state.plate.serial) {
            continue;
        }
        Reading reading;
        reading.occurred = entry.occurred;
        reading.entry = entry.seq;
        reading.gross = weighing.gross;
        reading.tare = weighing.tare;
        reading.book = before.total();
        reading.difference = Mass::fromMilligrams(weighing.gross.milligrams() - weighing.tare.milligrams() -
                                                  reading.book.milligrams());
        reading.beyond = std::abs(reading.difference.milligrams()) > weighing.tolerance.milligrams();
        state.lastReading = reading;
    }
}

void applyLegs(CylinderState& state, const Entry& entry, const std::vector<Leg>& legs) {
    const Account self = Account::cylinder(state.plate.serial);
    for (const Leg& leg : legs) {
        if (leg.target == self) {
            state.evacuated = false;
            state.purgedWith.clear();
            if (leg.cause == LegCause::movement) {
                state.lastFilled = entry.occurred;
                state.lastFillEntry = entry.seq;
            }
            state.recoveryUse = state.recoveryUse || holdsRecovered(leg.moved);
        }
    }
}

void noteMixing(CylinderState& state, const Entry& entry) {
    const bool mixed = state.content.byRefrigerant().size() > 1;
    if (mixed && !state.mixedSince) {
        state.mixedSince = entry.occurred;
        state.mixedEntry = entry.seq;
    } else if (!mixed) {
        state.mixedSince.reset();
        state.mixedEntry = 0;
    }
}

} // namespace

std::string_view conditionWord(Condition condition) {
    switch (condition) {
    case Condition::serviceable:
        return "serviceable";
    case Condition::held:
        return "held";
    case Condition::condemned:
        return "condemned";
    case Condition::away:
        return "away";
    case Condition::retired:
        return "retired";
    case Condition::lost:
        return "lost";
    }
    return "serviceable";
}

void apply(CylinderState& state, const Entry& entry, const std::vector<Leg>& legs, const Holding& content) {
    const Holding before = state.content;
    if (entry.kind == EntryKind::cylinderRegistered) {
        const auto plate = nameplateFrom(entry.body);
        if (!plate) {
            return;
        }
        state = CylinderState{};
        state.plate = plate.value();
        state.evacuated = entry.body.value("evacuated", false);
        state.place = BodyReader(entry.body).optionalText("place");
        state.mixedAccepted = state.plate.refrigerant == "mixed";
    } else if (state.plate.serial.empty()) {
        return;
    } else {
        applyReading(state, entry, before);
        applyMarks(state, entry);
        applyLegs(state, entry, legs);
    }
    state.content = content;
    noteMixing(state, entry);
    state.lastOccurred = std::max(state.lastOccurred, entry.occurred);
    state.lastEntry = std::max(state.lastEntry, entry.seq);
}

} // namespace tarebook
