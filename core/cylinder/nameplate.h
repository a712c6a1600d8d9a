#pragma once

#include <compare>
#include <optional>
#include <string>
#include <string_view>

#include "core/base/month_year.h"
#include "core/base/result.h"
#include "core/cylinder/specification.h"
#include "core/quantity/mass.h"
#include "core/quantity/volume.h"

namespace tarebook {

/// The water that a cylinder holds when full, as stamped (WC): pounds of water in the United States, litres
/// elsewhere. Kept exactly as the mass of water at 60 degF, 27.737 cubic inches a pound (49 CFR
/// 173.304a(a)(2) note 1), so a litre is 2.2001 lb of water.
class WaterCapacity {
public:
    /// Reads `47.7 lb`, `21.6 kg`, `26.2 l`. Error: no unit, zero, or beyond 3000 lb (1361 kg).
    [[nodiscard]] static Result<WaterCapacity> parse(std::string_view text);
    [[nodiscard]] static constexpr WaterCapacity ofWater(Mass water) { return WaterCapacity(water); }
    [[nodiscard]] constexpr Mass water() const { return m_water; }
    [[nodiscard]] Volume volume() const;
    constexpr auto operator<=>(const WaterCapacity&) const = default;

private:
    explicit constexpr WaterCapacity(Mass water) : m_water(water) {}
    Mass m_water;
};

enum class OwnerKind { own, rented, customer, reclaimer };

/// Whose the cylinder is: `own`, `rented: NAME`, `customer: NAME`, `reclaimer: NAME`. Empty text means own.
struct Owner {
    OwnerKind kind = OwnerKind::own;
    std::string name; // empty for own

    [[nodiscard]] static Result<Owner> parse(std::string_view text);
    [[nodiscard]] std::string text() const;
    bool operator==(const Owner&) const = default;
};

/// What is stamped on a cylinder's collar and what the register keeps beside it.
struct Nameplate {
    std::string serial; // 1 to 40 printable characters, no white space at the ends
    Specification specification;
    WaterCapacity waterCapacity = WaterCapacity::ofWater(Mass());
    Mass tare;
    MonthYear manufactured = MonthYear::of(1900, 1).value();
    std::optional<MonthYear> lastTest;
    std::string testMethod;  // as written: volumetric, proof, visual, ...
    std::string requalifier; // the identification number beside the date
    std::string markSuffix;  // what is stamped behind the date: empty, E, S, star
    Owner owner;
    bool overfillSensor = false;
    std::string refrigerant; // intended designation, "mixed" for mixed only, empty for none yet
    std::optional<bool> flammableRated = {}; // for flammable gas; none: nothing is on record
    bool burnOut = false;                    // kept for gas from burn-outs
    /// Last month of a fixed service life, as marked; none: it has none, or it is not on file.
    std::optional<MonthYear> serviceUntil = {};
    /// Kept for clean gas only (new or reclaimed, noncorrosive, free of corroding components) and coated
    /// outside where the rule of the longer interval asks for it.
    bool cleanService = false;

    bool operator==(const Nameplate&) const = default;
};

} // namespace tarebook
