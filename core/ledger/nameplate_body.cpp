#include "core/ledger/nameplate_body.h"

#include "core/ledger/body_reader.h"

namespace tarebook {

nlohmann::json bodyOf(const Nameplate& plate) {
    nlohmann::json body{{"serial", plate.serial},
                        {"specification", plate.specification.text()},
                        {"water_capacity_mg", plate.waterCapacity.water().milligrams()},
                        {"tare_mg", plate.tare.milligrams()},
                        {"manufactured", plate.manufactured.text()},
                        {"owner", plate.owner.text()},
                        {"overfill_sensor", plate.overfillSensor},
                        {"refrigerant", plate.refrigerant}};
    if (plate.lastTest) {
        body["last_test"] = plate.lastTest->text();
    }
    if (!plate.testMethod.empty()) {
        body["test_method"] = plate.testMethod;
    }
    if (!plate.requalifier.empty()) {
        body["requalifier"] = plate.requalifier;
    }
    if (!plate.markSuffix.empty()) {
        body["mark_suffix"] = plate.markSuffix;
    }
    if (plate.flammableRated) {
        body["flammable_rated"] = *plate.flammableRated;
    }
    if (plate.burnOut) {
        body["burn_out"] = true;
    }
    if (plate.cleanService) {
        body["clean_service"] = true;
    }
    if (plate.serviceUntil) {
        body["service_until"] = plate.serviceUntil->text();
    }
    return body;
}

Result<Nameplate> nameplateFrom(const nlohmann::json& body) {
    BodyReader reader(body);
    Nameplate plate;
    plate.serial = reader.text("serial");
    const auto specification = Specification::parse(reader.text("specification"));
    const auto manufactured = MonthYear::parse(reader.text("manufactured"));
    plate.waterCapacity = WaterCapacity::ofWater(reader.massAboveZero("water_capacity_mg"));
    plate.tare = reader.mass("tare_mg");
    if (!reader.ok()) {
        return reader.error();
    }
    if (!specification || !manufactured) {
        return specification ? manufactured.error() : specification.error();
    }
    plate.specification = specification.value();
    plate.manufactured = manufactured.value();
    restate(plate, body);
    return plate;
}

void restate(Nameplate& plate, const nlohmann::json& body) {
    BodyReader reader(body);
    if (const auto specification = Specification::parse(reader.optionalText("specification"))) {
        plate.specification = specification.value();
    }
    if (reader.has("water_capacity_mg")) {
        plate.waterCapacity = WaterCapacity::ofWater(reader.mass("water_capacity_mg"));
    }
    if (reader.has("tare_mg")) {
        plate.tare = reader.mass("tare_mg");
    }
    for (const char* key : {"month", "last_test"}) {
        if (const auto month = MonthYear::parse(reader.optionalText(key))) {
            plate.lastTest = month.value();
        }
    }
    if (const auto month = MonthYear::parse(reader.optionalText("service_until"))) {
        plate.serviceUntil = month.value();
    }
    for (const auto& [key, field] : {std::pair<const char*, std::string*>{"method", &plate.testMethod},
                                     {"test_method", &plate.testMethod},
                                     {"requalifier", &plate.requalifier},
                                     {"refrigerant", &plate.refrigerant}}) {
        if (reader.has(key)) {
            *field = reader.optionalText(key);
        }
    }
    if (reader.has("mark_suffix") || reader.has("month")) {
        plate.markSuffix = reader.optionalText("mark_suffix"); // a new mark without a suffix ends the old one
    }
    if (reader.has("owner")) {
        if (const auto owner = Owner::parse(reader.optionalText("owner"))) {
            plate.owner = owner.value();
        }
    }
    if (reader.has("overfill_sensor") && body["overfill_sensor"].is_boolean()) {
        plate.overfillSensor = body["overfill_sensor"].get<bool>();
    }
    if (reader.has("flammable_rated") && body["flammable_rated"].is_boolean()) {
        plate.flammableRated = body["flammable_rated"].get<bool>();
    }
    if (reader.has("burn_out") && body["burn_out"].is_boolean()) {
        plate.burnOut = body["burn_out"].get<bool>();
    }
    if (reader.has("clean_service") && body["clean_service"].is_boolean()) {
        plate.cleanService = body["clean_service"].get<bool>();
    }
}

} // namespace tarebook
