#include "core/shop/own_limits.h"

#include <array>
#include <cmath>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/quantity/decimal.h"
#include "core/quantity/pressure_reading.h"

namespace tarebook {

namespace {

constexpr double kPracticeShare = 0.8; // liquid by volume at 25 degC; common practice
constexpr double kMostKelvin = 20;
constexpr double kMostGauge = 500; // kPa
constexpr double kMostOil = 30;    // per cent; more is no refrigerant cylinder
constexpr double kMostAir = 50;
constexpr double kLeastLiquid = 0.1;

std::string percentText(const std::optional<double>& share) {
    return share ? fmt::format("{:g} %", *share * 100) : std::string();
}

std::optional<double> numberIn(std::string_view text, std::string_view& rest) {
    const auto read = readNumber(trimmed(text));
    if (!read) {
        return std::nullopt;
    }
    rest = trimmed(read.value().rest);
    return static_cast<double>(read.value().number.digits) / std::pow(10.0, read.value().number.places);
}

Result<ShopMargin> parseMargin(const std::string& text) {
    const Error wrong{fmt::format("{} is no limit of the shop's own", tarebook::quoted(text)),
                      "the liquid's share of the volume at a temperature from -40 to 65 C, as 80 % at 130 F"};
    const auto at = lowered(text).find(" at ");
    if (at == std::string::npos) {
        return wrong;
    }
    const auto share = parsePercent(std::string_view(text).substr(0, at), 100);
    const auto temperature = Temperature::parse(std::string_view(text).substr(at + 4));
    if (!share || !temperature || share.value() < kLeastLiquid || temperature.value() < kLowestSaturation ||
        temperature.value() > kHighestSaturation) {
        return wrong;
    }
    ShopMargin margin;
    margin.liquidShare = share.value();
    margin.at = temperature.value();
    return margin;
}

template <typename Value>
Result<bool> take(const std::string& key, const Result<Value>& read, std::optional<Value>& field) {
    if (!read) {
        return Error{fmt::format("{}: {}", key, read.error().wrong), read.error().right};
    }
    field = read.value();
    return true;
}

Result<double> parseGaugeError(const std::string& text) {
    const auto read = parseGaugePressure(text);
    if (!read || read.value().kilopascal() < 0 || read.value().kilopascal() > kMostGauge) {
        return Error{fmt::format("{} is no error of a gauge", tarebook::quoted(text)),
                     "what it may be off, half width, as 1 psi or 0.1 bar"};
    }
    return read.value().kilopascal();
}

} // namespace

Result<double> parseKelvinDifference(std::string_view text) {
    std::string_view unit;
    const auto number = numberIn(text, unit);
    const std::string word = lowered(unit);
    const bool fahrenheit = word == "f" || word == "°f";
    const bool known = fahrenheit || word == "c" || word == "°c" || word == "k";
    const double kelvin = number.value_or(0) * (fahrenheit ? 5.0 / 9 : 1);
    if (!number || !known || kelvin > kMostKelvin) {
        return Error{fmt::format("{} is no error of a thermometer", tarebook::quoted(text)),
                     "what it may be off, half width, as 1 F or 0.5 C"};
    }
    return kelvin;
}

Result<double> parsePercent(std::string_view text, double most) {
    std::string_view unit;
    const auto number = numberIn(text, unit);
    if (!number || (unit != "%" && !unit.empty()) || *number > most) {
        return Error{fmt::format("{} is no share in per cent", tarebook::quoted(text)),
                     fmt::format("a number from 0 to {:g}, as 1.5 %", most)};
    }
    return *number / 100;
}

std::vector<std::pair<std::string, std::string>> OwnLimits::pairs() const {
    return {
        {"hot_van_limit", hotVan ? fmt::format("{:g} % at {:g} C", hotVan->liquidShare * 100,
                                               std::round(hotVan->at.celsius() * 1000) / 1000)
                                 : ""},
        {"oil_allowance", percentText(oilAllowance)},
        {"air_allowance", percentText(airAllowance)},
        {"reclaimer_mixed_above", percentText(reclaimerShare)},
        {"gauge_error", gaugeErrorKilopascal ? fmt::format("{:g} kPa", *gaugeErrorKilopascal) : ""},
        {"thermometer_error", thermometerErrorKelvin ? fmt::format("{:g} K", *thermometerErrorKelvin) : ""}};
}

Result<bool> OwnLimits::set(const std::string& key, const std::string& value) {
    const std::string text = tidied(value);
    if (text.empty()) {
        for (const auto& [name, field] :
             {std::pair<std::string_view, std::optional<double>*>{"oil_allowance", &oilAllowance},
              {"air_allowance", &airAllowance},
              {"reclaimer_mixed_above", &reclaimerShare},
              {"gauge_error", &gaugeErrorKilopascal},
              {"thermometer_error", &thermometerErrorKelvin}}) {
            if (key == name) {
                field->reset();
                return true;
            }
        }
        if (key == "hot_van_limit") {
            hotVan.reset();
            return true;
        }
        return false;
    }
    if (key == "hot_van_limit") {
        return take(key, parseMargin(text), hotVan);
    }
    if (key == "oil_allowance") {
        return take(key, parsePercent(text, kMostOil), oilAllowance);
    }
    if (key == "air_allowance") {
        return take(key, parsePercent(text, kMostAir), airAllowance);
    }
    if (key == "reclaimer_mixed_above") {
        return take(key, parsePercent(text, 100), reclaimerShare);
    }
    if (key == "gauge_error") {
        return take(key, parseGaugeError(text), gaugeErrorKilopascal);
    }
    if (key == "thermometer_error") {
        return take(key, parseKelvinDifference(text), thermometerErrorKelvin);
    }
    return false;
}

ShopMargins OwnLimits::margins() const {
    ShopMargins margins;
    if (hotVan) {
        margins.push_back(*hotVan);
    }
    if (oilAllowance && *oilAllowance > 0) {
        margins.push_back({kPracticeShare - *oilAllowance, Temperature::fromCelsius(25), "fill.oil",
                           "the shop's own allowance for oil"});
        margins.push_back(
            {1 - *oilAllowance, kRatingTemperature, "fill.oil", "the shop's own allowance for oil"});
    }
    return margins;
}

} // namespace tarebook
