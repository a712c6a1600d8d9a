#include "app/reading_options.h"

#include <charconv>

#include <fmt/format.h>

#include "app/shop_session.h"
#include "core/base/text.h"
#include "core/quantity/pressure_reading.h"
#include "core/shop/finding_json.h"
#include "core/shop/own_limits.h"

namespace tarebook {

namespace {

constexpr double kMostHours = 100'000; // eleven years

Result<double> hoursIn(const std::string& text) {
    double hours = 0;
    const auto [end, code] = std::from_chars(text.data(), text.data() + text.size(), hours);
    if (code != std::errc() || end != text.data() + text.size() || !(hours >= 0 && hours <= kMostHours)) {
        return Error{fmt::format("{} is no number of hours", tarebook::quoted(text)),
                     "how long it stood still and out of the sun, as 12"};
    }
    return hours;
}

} // namespace

void addReadingOptions(CLI::App& verb, ReadingOptions& options, CLI::Option* at) {
    if (at == nullptr) {
        at = verb.add_option("--at", options.at, "temperature of the cylinder, as \"21 C\" or \"70 F\"");
    }
    CLI::Option* measured =
        verb.add_option(
                "--measured", options.measured,
                "what a gauge showed there at rest, as \"201 psig\" or \"13.9 bar\", and what that means")
            ->needs(at);
    verb.add_option("--rest", options.rest, "hours that it stood still and out of the sun")->needs(measured);
    verb.add_option("--liquid", options.liquid, "is liquid left: yes or no")
        ->needs(measured)
        ->check(CLI::IsMember({"yes", "no"}));
    verb.add_option("--gauge-error", options.gaugeError, "what the gauge may be off, as \"1 psi\"")
        ->needs(measured);
    verb.add_option("--thermometer-error", options.thermometerError,
                    "what the thermometer may be off, as \"1 F\"")
        ->needs(measured);
}

Result<std::optional<PressureReading>> readingIn(const ReadingOptions& options) {
    if (options.measured.empty()) {
        return std::optional<PressureReading>();
    }
    PressureReading reading;
    const auto at = Temperature::parse(options.at);
    const auto measured = parseGaugePressure(options.measured);
    if (!at || !measured) {
        return at ? inOption("--measured", measured.error()) : inOption("--at", at.error());
    }
    reading.temperature = at.value();
    reading.pressure = measured.value();
    if (!options.rest.empty()) {
        const auto hours = hoursIn(options.rest);
        if (!hours) {
            return inOption("--rest", hours.error());
        }
        reading.hoursAtRest = hours.value();
    }
    if (!options.liquid.empty()) {
        reading.liquidLeft = options.liquid == "yes";
    }
    OwnLimits errors;
    for (const auto& [option, key, text] :
         {std::tuple{"--gauge-error", "gauge_error", &options.gaugeError},
          std::tuple{"--thermometer-error", "thermometer_error", &options.thermometerError}}) {
        if (const auto set = errors.set(key, *text); !set) {
            return inOption(option, set.error());
        }
    }
    reading.gaugeErrorKilopascal = errors.gaugeErrorKilopascal;
    reading.thermometerErrorKelvin = errors.thermometerErrorKelvin;
    return std::optional(reading);
}

nlohmann::ordered_json jsonOf(const IdentityCheck& check, const PressureReading& reading) {
    const PressureCheck& pressure = check.pressure;
    nlohmann::ordered_json object{{"gauge_kpa", reading.pressure.kilopascal()},
                                  {"verdict", verdictWord(check.verdict)},
                                  {"meaning", meaningWord(pressure.meaning)},
                                  {"expected_gauge_kpa", pressure.expected.bubble.gauge().kilopascal()},
                                  {"difference_kpa", pressure.differenceKilopascal},
                                  {"uncertainty_kpa", pressure.uncertaintyKilopascal},
                                  {"error_kpa", pressure.errorKilopascal},
                                  {"hidden_air_share", check.hiddenAirShare},
                                  {"kpa_per_kelvin", pressure.kilopascalPerKelvin},
                                  {"also_agrees_with", pressure.others},
                                  {"also_agrees_with_more", pressure.moreOthers}};
    object["air_share_of_gas_space"] = nullptr;
    if (pressure.air) {
        object["air_share_of_gas_space"] = {{"about", pressure.air->volumeShare},
                                            {"from", pressure.air->shareFrom},
                                            {"to", pressure.air->shareTo}};
    }
    object["mixtures_that_fit"] = nlohmann::ordered_json::array();
    for (const FittingPair& pair : check.pairs) {
        object["mixtures_that_fit"].push_back({{"with", pair.designation}, {"mass_share", pair.share}});
    }
    object["finding"] = jsonOf(check.finding);
    return object;
}

} // namespace tarebook
