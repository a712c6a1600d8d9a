#include "core/shop/settings.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <cmath>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/base/zone.h"
#include "core/rules/rulebook.h"

namespace tarebook {

namespace {

constexpr int kMostDays = 3'660;
constexpr int kMostMinutes = 24 * 60;
constexpr std::size_t kLongestName = 200;
constexpr int kFewestDigits = 7;
constexpr int kMostDigits = 15; // of a number in all the world: ITU-T E.164, from memory
// A judgement, no law: a scale that is off by half a per cent, which is coarse, is off by 5 lb under a
// half-ton cylinder of 1000 lb gross, the heaviest that a shop weighs. Any more would hide what is missing
// from the small ones, which hold 25 to 30 lb.
constexpr std::int64_t kLargestTolerance = 2'267'962; // mg: 5 lb
constexpr double kMilligramsPerHundredthKilogram = 10'000;

template <typename Unit> using Words = std::array<std::pair<Unit, std::string_view>, 2>;

constexpr Words<MassUnit> kMassWords = {{{MassUnit::pound, "lb"}, {MassUnit::kilogram, "kg"}}};
constexpr std::array<std::pair<PressureUnit, std::string_view>, 3> kPressureWords = {
    {{PressureUnit::psig, "psig"}, {PressureUnit::bar, "bar"}, {PressureUnit::kilopascal, "kPa"}}};
constexpr Words<TemperatureUnit> kTemperatureWords = {
    {{TemperatureUnit::fahrenheit, "F"}, {TemperatureUnit::celsius, "C"}}};

// Blank: as it comes.
constexpr Words<LeakMethod> kLeakWords = {
    {{LeakMethod::annualizing, "annualizing"}, {LeakMethod::rolling, "rolling"}}};

template <typename Table, typename Unit> std::string wordOf(const Table& table, Unit unit) {
    for (const auto& [value, word] : table) {
        if (value == unit) {
            return std::string(word);
        }
    }
    return {};
}

template <typename Table, typename Unit>
Result<bool> setWord(const Table& table, const std::string& text, Unit& unit) {
    std::string choices;
    for (const auto& [value, word] : table) {
        if (lowered(word) == lowered(trimmed(text))) {
            unit = value;
            return true;
        }
        choices += (choices.empty() ? "" : ", ") + std::string(word);
    }
    return Error{fmt::format("{} is no unit for this", tarebook::quoted(text)), "one of " + choices};
}

Result<bool> setCount(const std::string& text, const char* what, int most, int& count) {
    const std::string_view digits = trimmed(text);
    int value = 0;
    const auto [end, code] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    if (code != std::errc() || end != digits.data() + digits.size() || value < 0 || value > most) {
        return Error{fmt::format("{} is no number of {}", tarebook::quoted(text), what),
                     fmt::format("a whole number from 0 to {}", most)};
    }
    count = value;
    return true;
}

Result<bool> setText(const std::string& text, std::string& field) {
    const std::string tidy = tidied(text);
    if (tidy.size() > kLongestName || tidy.find('\0') != std::string::npos) {
        return Error{fmt::format("the text is longer than {} bytes or holds a NUL", kLongestName),
                     "shorten it"};
    }
    field = tidy;
    return true;
}

/// Numeric, as 49 CFR 172.604(a) asks: letters may only stand behind it.
Result<bool> setTelephone(const std::string& text, std::string& field) {
    const std::string tidy = tidied(text);
    const std::string number = tidy.substr(0, tidy.find_first_not_of("0123456789+-(). /"));
    const auto digits = std::count_if(number.begin(), number.end(),
                                      [](unsigned char letter) { return std::isdigit(letter) != 0; });
    if (!tidy.empty() && (digits < kFewestDigits || digits > kMostDigits)) {
        return Error{fmt::format("{} is no telephone number", tarebook::quoted(text)),
                     "the whole number in digits with its area code, as 1-555-010-0142, then, where somebody "
                     "else answers it, who"};
    }
    return setText(tidy, field);
}

} // namespace

std::vector<std::pair<std::string, std::string>> Settings::pairs() const {
    std::vector<std::pair<std::string, std::string>> all = {
        {"name", name},
        {"address", address},
        {"zone", zone},
        {"rulebook", rulebook},
        {"mass_unit", wordOf(kMassWords, mass)},
        {"pressure_unit", wordOf(kPressureWords, pressure)},
        {"temperature_unit", wordOf(kTemperatureWords, temperature)},
        {"retest_notice_days", std::to_string(retestNoticeDays)},
        {"out_days", std::to_string(outDays)},
        {"certificate_days", std::to_string(certificateDays)},
        {"receipt_days", std::to_string(receiptDays)},
        {"weighing_tolerance", weighingTolerance.kilogramsText()}};
    for (auto& pair : own.pairs()) {
        all.push_back(std::move(pair));
    }
    // Blank: as it comes, as with the shop's own limits.
    all.emplace_back("lock_minutes",
                     lockMinutes == Settings().lockMinutes ? "" : std::to_string(lockMinutes));
    all.emplace_back("emergency_telephone", emergencyTelephone);
    all.emplace_back("leak_method", wordOf(kLeakWords, leakMethod));
    return all;
}

Result<bool> Settings::set(const std::string& key, const std::string& value) {
    if (key == "name") {
        return setText(value, name);
    }
    if (key == "address") {
        return setText(value, address);
    }
    if (key == "zone") {
        const auto known = Zone::load(std::string(trimmed(value)));
        if (!known) {
            return known.error();
        }
        zone = known.value().name();
        return true;
    }
    if (key == "rulebook") {
        for (const std::string& known : Rulebook::names()) {
            if (known == lowered(trimmed(value))) {
                rulebook = known;
                return true;
            }
        }
        return Error{fmt::format("there is no rulebook {}", tarebook::quoted(value)),
                     "one of " + fmt::format("{}", fmt::join(Rulebook::names(), ", "))};
    }
    if (key == "mass_unit") {
        return setWord(kMassWords, value, mass);
    }
    if (key == "pressure_unit") {
        return setWord(kPressureWords, value, pressure);
    }
    if (key == "temperature_unit") {
        return setWord(kTemperatureWords, value, temperature);
    }
    for (const auto& [name_, days] :
         {std::pair<std::string_view, int*>{"retest_notice_days", &retestNoticeDays},
          {"out_days", &outDays},
          {"certificate_days", &certificateDays},
          {"receipt_days", &receiptDays}}) {
        if (key == name_) {
            return setCount(value, "days", kMostDays, *days);
        }
    }
    if (key == "weighing_tolerance") {
        const auto read = Mass::parse(value);
        if (!read) {
            return read.error();
        }
        if (read.value().milligrams() > kLargestTolerance) {
            return Error{
                fmt::format("a weighing tolerance of {} would hide what is missing from a small cylinder",
                            trimmed(value)),
                "the half width of what scale and tare may be off together, as 0.3 lb; at most 5 lb, half a "
                "per cent of the 1000 lb of the heaviest cylinder"};
        }
        weighingTolerance = read.value();
        return true;
    }
    if (key == "lock_minutes") {
        if (!trimmed(value).empty()) {
            return setCount(value, "minutes", kMostMinutes, lockMinutes);
        }
        lockMinutes = Settings().lockMinutes;
        return true;
    }
    if (key == "emergency_telephone") {
        return setTelephone(value, emergencyTelephone);
    }
    if (key == "leak_method") {
        if (trimmed(value).empty()) {
            leakMethod = LeakMethod::either;
            return true;
        }
        if (auto word = setWord(kLeakWords, value, leakMethod); word) {
            return word;
        }
        return Error{fmt::format("{} is no method of a leak rate", tarebook::quoted(value)),
                     "annualizing or rolling; blank where none was chosen"};
    }
    if (auto taken = own.set(key, value); !taken || taken.value()) {
        return taken;
    }
    std::string keys;
    for (const auto& [known, unused] : pairs()) {
        keys += (keys.empty() ? "" : ", ") + known;
    }
    return Error{fmt::format("there is no setting {}", tarebook::quoted(key)), "one of " + keys};
}

std::string Display::mass(Mass mass) const {
    if (m_settings.mass == MassUnit::pound) {
        return mass.poundsText();
    }
    const auto hundredths =
        std::llround(static_cast<double>(mass.milligrams()) / kMilligramsPerHundredthKilogram);
    return fmt::format("{:.2f} kg", static_cast<double>(hundredths) / 100.0);
}

std::string Display::limit(Mass mass) const {
    if (m_settings.mass == MassUnit::pound) {
        return mass.poundsFlooredText();
    }
    // Half a milligram may have been rounded away when the mass was read; it is not cut twice.
    constexpr auto kHundredth = static_cast<std::int64_t>(kMilligramsPerHundredthKilogram);
    const std::int64_t milligrams = mass.milligrams() + 1;
    const std::int64_t hundredths = milligrams / kHundredth - (milligrams % kHundredth < 0 ? 1 : 0);
    return fmt::format("{:.2f} kg", static_cast<double>(hundredths) / 100.0);
}

std::string Display::pressure(GaugePressure pressure) const {
    switch (m_settings.pressure) {
    case PressureUnit::psig:
        return fmt::format("{:.1f} psig", pressure.psi());
    case PressureUnit::bar:
        return fmt::format("{:.2f} bar", pressure.bar());
    case PressureUnit::kilopascal:
        return fmt::format("{:.0f} kPa", pressure.kilopascal());
    }
    return {};
}

std::string Display::temperature(Temperature temperature) const {
    return m_settings.temperature == TemperatureUnit::fahrenheit
               ? fmt::format("{:.0f} °F", temperature.fahrenheit())
               : fmt::format("{:.0f} °C", temperature.celsius());
}

Result<Mass> Display::readMass(const std::string& text) const {
    const std::string tidy = tidied(text);
    const bool bare = !tidy.empty() && tidy.find_first_not_of("0123456789.") == std::string::npos;
    return Mass::parse(bare ? tidy + " " + massUnit() : tidy);
}

std::string Display::massUnit() const {
    return wordOf(kMassWords, m_settings.mass);
}

} // namespace tarebook
