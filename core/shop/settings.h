#pragma once

#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/quantity/mass.h"
#include "core/quantity/pressure.h"
#include "core/quantity/temperature.h"
#include "core/shop/own_limits.h"
#include "core/store/store.h"

namespace tarebook {

enum class MassUnit { pound, kilogram };
enum class PressureUnit { psig, bar, kilopascal };
enum class TemperatureUnit { fahrenheit, celsius };
/// By which method of 40 CFR 82.152 leak rates are held against the limit: one for all systems of a facility.
/// Either, until the shop has chosen.
enum class LeakMethod { either, annualizing, rolling };

/// What a shop has set for itself. Kept in the journal as `setting_set` entries.
struct Settings {
    std::string name; // of the shop, as it stands on papers
    std::string address;
    std::string zone = "UTC"; // as America/Chicago
    std::string rulebook = "us";
    MassUnit mass = MassUnit::pound;
    PressureUnit pressure = PressureUnit::psig;
    TemperatureUnit temperature = TemperatureUnit::fahrenheit;
    int retestNoticeDays = 90;
    int outDays = 30; // out with a technician longer than this is told
    int certificateDays = 90;
    int receiptDays = 30; // a batch without a receipt for longer than this is told
    Mass weighingTolerance = Mass::fromMilligrams(136'078); // 0.3 lb: scale and tare together, half width
    OwnLimits own = {};
    int lockMinutes = 10; // a window that nobody touches for so long locks; 0: never
    /// As it stands on a shipping paper, answered while goods are on the road (49 CFR 172.604); empty: not
    /// entered. Who answers it, where that is not the shop, may stand behind the number.
    std::string emergencyTelephone = {};
    LeakMethod leakMethod = LeakMethod::either;

    /// Key and value as a `setting_set` body keeps them, one pair a field.
    [[nodiscard]] std::vector<std::pair<std::string, std::string>> pairs() const;
    /// Sets the field of that key. Error: unknown key, or a value that it cannot take, with what it can.
    [[nodiscard]] Result<bool> set(const std::string& key, const std::string& value);
    bool operator==(const Settings&) const = default;
};

/// The one place that prints quantities for a person, in the units of the shop.
class Display {
public:
    explicit Display(const Settings& settings) : m_settings(settings) {}
    /// A weighed or booked mass to the nearest tenth of a pound or hundredth of a kilogram: `31.5 lb`, `14.29
    /// kg`.
    [[nodiscard]] std::string mass(Mass mass) const;
    /// A limit: the same, cut downwards, so that a room below zero shows all that is too much: `-5.5 lb`.
    [[nodiscard]] std::string limit(Mass mass) const;
    [[nodiscard]] std::string pressure(GaugePressure pressure) const; // `484.2 psig`
    [[nodiscard]] std::string temperature(Temperature temperature) const;
    /// What a person typed. A bare number takes the shop's unit; the answer always shows which was taken.
    [[nodiscard]] Result<Mass> readMass(const std::string& text) const;
    [[nodiscard]] std::string massUnit() const; // `lb`

private:
    Settings m_settings;
};

} // namespace tarebook
