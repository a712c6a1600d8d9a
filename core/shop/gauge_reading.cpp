#include "core/shop/gauge_reading.h"

#include <cmath>

#include <fmt/format.h>

#include "core/ledger/body_text.h"
#include "core/shop/entries_between.h"
#include "core/shop/identity.h"

namespace tarebook {

namespace {

constexpr double kThousand = 1'000; // pascal of a kilopascal, millikelvin of a kelvin
constexpr double kSecondsOfHour = 3'600;
constexpr const char* kNoAnswer = "no answer";

std::optional<std::int64_t> wholeIn(const nlohmann::json& body, const char* key) {
    const auto place = body.find(key);
    return place != body.end() && place->is_number_integer() ? std::optional(place->get<std::int64_t>())
                                                             : std::nullopt;
}

std::int64_t thousandths(double value) {
    return std::llround(value * kThousand);
}

GaugePressure gaugeOfPascal(std::int64_t pascal) {
    return GaugePressure::fromKilopascal(static_cast<double>(pascal) / kThousand);
}

/// Whose pressure it was: older entries do not say; of a movement it was the cylinder on its side.
std::string serialOf(const Entry& entry) {
    for (const char* key : {"gauge_of", "serial"}) {
        if (std::string serial = bodyText(entry.body, key); !serial.empty()) {
            return serial;
        }
    }
    std::string to = bodyAccount(entry, "to", AccountKind::cylinder);
    return to.empty() ? bodyAccount(entry, "from", AccountKind::cylinder) : to;
}

} // namespace

void putReading(const Shop& shop, const CylinderState& after, const PressureReading& reading,
                nlohmann::json& body) {
    body["gauge_pa"] = thousandths(reading.pressure.kilopascal());
    body["gauge_at_mk"] = thousandths(reading.temperature.kelvin());
    body["gauge_of"] = after.plate.serial;
    if (reading.hoursAtRest) {
        body["gauge_rest_s"] = std::llround(*reading.hoursAtRest * kSecondsOfHour);
    }
    if (reading.liquidLeft) {
        body["gauge_liquid"] = *reading.liquidLeft;
    }
    PressureReading taken = reading;
    takeSettings(shop.settings().own, taken);
    if (taken.gaugeErrorKilopascal) {
        body["gauge_error_pa"] = thousandths(*taken.gaugeErrorKilopascal);
    }
    if (taken.thermometerErrorKelvin) {
        body["thermometer_error_mk"] = thousandths(*taken.thermometerErrorKelvin);
    }
    const auto check = identityOf(shop, after, reading);
    body["gauge_verdict"] = check ? verdictWord(check.value().verdict) : std::string(kNoAnswer);
    if (check) {
        body["gauge_expected_pa"] = thousandths(check.value().pressure.expected.bubble.gauge().kilopascal());
    }
}

std::optional<GaugeReading> readingOf(const Entry& entry) {
    const auto pascal = wholeIn(entry.body, "gauge_pa");
    const auto millikelvin = wholeIn(entry.body, "gauge_at_mk");
    if (!pascal || !millikelvin) {
        return std::nullopt;
    }
    GaugeReading reading;
    reading.serial = serialOf(entry);
    reading.pressure = gaugeOfPascal(*pascal);
    reading.temperature = Temperature::fromKelvin(static_cast<double>(*millikelvin) / kThousand);
    reading.secondsAtRest = wholeIn(entry.body, "gauge_rest_s");
    const auto liquid = entry.body.find("gauge_liquid");
    if (liquid != entry.body.end() && liquid->is_boolean()) {
        reading.liquid = liquid->get<bool>();
    }
    if (const auto expected = wholeIn(entry.body, "gauge_expected_pa")) {
        reading.expected = gaugeOfPascal(*expected);
    }
    reading.verdict = bodyText(entry.body, "gauge_verdict");
    return reading;
}

std::string readingWords(const Display& display, const Entry& entry) {
    const auto reading = readingOf(entry);
    if (!reading) {
        return {};
    }
    return fmt::format("gauge {} at {}{}", display.pressure(reading->pressure),
                       display.temperature(reading->temperature),
                       reading->verdict.empty() ? "" : ": " + reading->verdict);
}

} // namespace tarebook
