#include "app/mark_options.h"

#include <optional>

#include "app/shop_session.h"

namespace tarebook {

namespace {

/// Error names the option whose value cannot be read.
template <typename Value> std::optional<Error> wrongIn(const char* option, const Result<Value>& value) {
    return value ? std::nullopt : std::make_optional(inOption(option, value.error()));
}

} // namespace

void addMarkOptions(CLI::App& verb, MarkOptions& options) {
    verb.add_option("--specification", options.specification,
                    "as DOT-4BA400, TC-4BAM28, 'UN ISO 22991 PH 42'")
        ->required();
    verb.add_option("--water-capacity", options.capacity, "as '47.7 lb' or '21.6 l'")->required();
    verb.add_option("--tare", options.tare, "as '27.0 lb'")->required();
    verb.add_option("--manufactured", options.made, "month and year, as 2021-03")->required();
    verb.add_option("--last-test", options.tested, "month and year of the last requalification");
    verb.add_option("--test-method", options.method, "volumetric, proof, visual, ...");
    verb.add_option("--requalifier", options.requalifier, "number beside the date");
    verb.add_option("--mark-suffix", options.suffix, "what stands behind the date: E, S, star, ...");
    verb.add_option("--service-until", options.serviceUntil,
                    "last month of a fixed service life, where it has one");
    verb.add_option("--owner", options.owner, "own, 'rented: NAME', 'customer: NAME', 'reclaimer: NAME'");
    verb.add_flag("--overfill-sensor", options.sensor, "it has one");
    verb.add_option("--flammable", options.flammable, "rated for flammable gas: yes or no")
        ->check(CLI::IsMember({"yes", "no"}));
    verb.add_flag("--burn-out", options.burnOut, "kept for gas from burn-outs");
    verb.add_flag("--clean-service", options.clean,
                  "kept for clean noncorrosive gas only, new or reclaimed, and coated outside where a longer "
                  "interval asks for it");
}

Result<Nameplate> nameplateOf(const Shop& shop, const std::string& serial, const MarkOptions& options) {
    const auto specification = Specification::parse(options.specification);
    const auto capacity = WaterCapacity::parse(options.capacity);
    const auto tare = massIn(shop, "--tare", options.tare);
    const auto made = MonthYear::parse(options.made);
    const auto tested = options.tested.empty() ? made : MonthYear::parse(options.tested);
    const auto life = options.serviceUntil.empty() ? made : MonthYear::parse(options.serviceUntil);
    const auto owner = Owner::parse(options.owner);
    for (const auto& wrong :
         {wrongIn("--specification", specification), wrongIn("--water-capacity", capacity),
          wrongIn("--manufactured", made), wrongIn("--last-test", tested), wrongIn("--service-until", life),
          wrongIn("--owner", owner)}) {
        if (wrong) {
            return *wrong;
        }
    }
    if (!tare) {
        return tare.error();
    }
    Nameplate plate;
    plate.serial = serial;
    plate.specification = specification.value();
    plate.waterCapacity = capacity.value();
    plate.tare = tare.value().value_or(Mass());
    plate.manufactured = made.value();
    if (!options.tested.empty()) {
        plate.lastTest = tested.value();
    }
    if (!options.serviceUntil.empty()) {
        plate.serviceUntil = life.value();
    }
    plate.testMethod = options.method;
    plate.requalifier = options.requalifier;
    plate.markSuffix = options.suffix;
    plate.owner = owner.value();
    plate.overfillSensor = options.sensor;
    if (!options.flammable.empty()) {
        plate.flammableRated = options.flammable == "yes";
    }
    plate.burnOut = options.burnOut;
    plate.cleanService = options.clean;
    return plate;
}

} // namespace tarebook
