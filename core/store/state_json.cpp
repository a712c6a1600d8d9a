#include "core/store/state_json.h"

#include <array>

#include "core/ledger/nameplate_body.h"

namespace tarebook {

namespace {

constexpr std::array kConditions = {Condition::serviceable, Condition::held,    Condition::condemned,
                                    Condition::away,        Condition::retired, Condition::lost};

Condition conditionFrom(const std::string& word) {
    for (const Condition condition : kConditions) {
        if (conditionWord(condition) == word) {
            return condition;
        }
    }
    return Condition::serviceable;
}

void putMoment(nlohmann::json& object, const char* key, const std::optional<Instant>& moment) {
    if (moment) {
        object[key] = moment->seconds();
    }
}

std::optional<Instant> momentIn(const nlohmann::json& object, const char* key) {
    const auto place = object.find(key);
    if (place == object.end()) {
        return std::nullopt;
    }
    return Instant::fromSeconds(place->get<std::int64_t>());
}

Mass massIn(const nlohmann::json& object, const char* key) {
    return Mass::fromMilligrams(object.at(key).get<std::int64_t>());
}

nlohmann::json jsonOf(const Reading& reading) {
    return {{"occurred", reading.occurred.seconds()},
            {"entry", reading.entry},
            {"gross_mg", reading.gross.milligrams()},
            {"tare_mg", reading.tare.milligrams()},
            {"book_mg", reading.book.milligrams()},
            {"difference_mg", reading.difference.milligrams()},
            {"beyond", reading.beyond}};
}

Reading readingFrom(const nlohmann::json& object) {
    return {Instant::fromSeconds(object.at("occurred").get<std::int64_t>()),
            object.at("entry").get<Sequence>(),
            massIn(object, "gross_mg"),
            massIn(object, "tare_mg"),
            massIn(object, "book_mg"),
            massIn(object, "difference_mg"),
            object.at("beyond").get<bool>()};
}

/// What the condition alone says of the fitness; kept beside it only where it differs.
void judgeByCondition(CylinderState& state) {
    const bool unfit = state.condition == Condition::held || state.condition == Condition::condemned;
    state.fitness = unfit ? state.condition : Condition::serviceable;
    state.fitnessNote = unfit ? state.conditionNote : "";
}

void putFitness(nlohmann::json& object, const CylinderState& state) {
    CylinderState usual;
    usual.condition = state.condition;
    usual.conditionNote = state.conditionNote;
    judgeByCondition(usual);
    if (usual.fitness != state.fitness || usual.fitnessNote != state.fitnessNote) {
        object["fitness"] = conditionWord(state.fitness);
        object["fitness_note"] = state.fitnessNote;
    }
}

nlohmann::json wordsOf(const Harms& harms) {
    nlohmann::json words = nlohmann::json::array();
    for (const Harm harm : harms.list()) {
        words.push_back(harmWord(harm));
    }
    return words;
}

Harms harmsIn(const nlohmann::json& object, const char* key) {
    Harms harms;
    if (object.contains(key)) {
        for (const auto& word : object[key]) {
            if (const auto harm = harmFrom(word.get_ref<const std::string&>())) {
                harms.add(*harm);
            }
        }
    }
    return harms;
}

/// Only where there are any: they are rare.
void putRare(nlohmann::json& object, const CylinderState& state) {
    if (!state.harms.empty()) {
        object["harms"] = wordsOf(state.harms);
    }
    if (!state.harmsBefore.empty()) {
        object["harms_before"] = wordsOf(state.harmsBefore);
    }
    if (!state.purgedWith.empty()) {
        object["purged_with"] = state.purgedWith;
    }
    if (state.markedTare) {
        object["marked_tare_mg"] = state.markedTare->milligrams();
    }
}

void readRare(CylinderState& state, const nlohmann::json& object) {
    state.harms = harmsIn(object, "harms");
    state.harmsBefore = harmsIn(object, "harms_before");
    if (state.harms.empty() && state.fitness == Condition::held) {
        state.harms.add(Harm::damage); // kept by a version that knew no other reason to hold one back
    }
    if (object.contains("purged_with")) {
        state.purgedWith = object["purged_with"].get<std::string>();
    }
    if (object.contains("marked_tare_mg")) {
        state.markedTare = massIn(object, "marked_tare_mg");
    }
}

} // namespace

nlohmann::json jsonOf(const CylinderState& state) {
    nlohmann::json object{{"plate", bodyOf(state.plate)},
                          {"condition", conditionWord(state.condition)},
                          {"condition_note", state.conditionNote},
                          {"holder", state.holder},
                          {"job", state.job},
                          {"place", state.place},
                          {"batch", state.batch},
                          {"content", state.content.encoded()},
                          {"evacuated", state.evacuated},
                          {"recovery_use", state.recoveryUse},
                          {"last_fill_entry", state.lastFillEntry},
                          {"mixed_entry", state.mixedEntry},
                          {"mixed_accepted", state.mixedAccepted},
                          {"overruled", state.overruled},
                          {"last_occurred", state.lastOccurred.seconds()},
                          {"last_entry", state.lastEntry}};
    putMoment(object, "out_since", state.outSince);
    putMoment(object, "last_filled", state.lastFilled);
    putMoment(object, "mixed_since", state.mixedSince);
    putFitness(object, state);
    putRare(object, state);
    if (state.lastReading) {
        object["last_reading"] = jsonOf(*state.lastReading);
    }
    return object;
}

Result<CylinderState> stateFrom(const nlohmann::json& object) {
    const Error damaged{"a cylinder's state in the shop file cannot be read",
                        "rebuild the views from the journal"};
    try {
        CylinderState state;
        auto plate = nameplateFrom(object.at("plate"));
        auto content = Holding::decode(object.at("content").get_ref<const std::string&>());
        if (!plate || !content) {
            return damaged;
        }
        state.plate = std::move(plate).value();
        state.content = std::move(content).value();
        state.condition = conditionFrom(object.at("condition").get<std::string>());
        state.conditionNote = object.at("condition_note").get<std::string>();
        judgeByCondition(state);
        if (object.contains("fitness")) {
            state.fitness = conditionFrom(object["fitness"].get<std::string>());
            state.fitnessNote = object.at("fitness_note").get<std::string>();
        }
        readRare(state, object);
        state.holder = object.at("holder").get<std::string>();
        state.job = object.at("job").get<std::string>();
        state.place = object.at("place").get<std::string>();
        state.batch = object.at("batch").get<std::string>();
        state.evacuated = object.at("evacuated").get<bool>();
        state.recoveryUse = object.at("recovery_use").get<bool>();
        state.lastFillEntry = object.at("last_fill_entry").get<Sequence>();
        state.mixedEntry = object.at("mixed_entry").get<Sequence>();
        state.mixedAccepted = object.at("mixed_accepted").get<bool>();
        state.overruled = object.at("overruled").get<std::vector<std::string>>();
        state.lastOccurred = Instant::fromSeconds(object.at("last_occurred").get<std::int64_t>());
        state.lastEntry = object.at("last_entry").get<Sequence>();
        state.outSince = momentIn(object, "out_since");
        state.lastFilled = momentIn(object, "last_filled");
        state.mixedSince = momentIn(object, "mixed_since");
        if (object.contains("last_reading")) {
            state.lastReading = readingFrom(object["last_reading"]);
        }
        return state;
    } catch (const nlohmann::json::exception&) {
        return damaged;
    }
}

} // namespace tarebook
