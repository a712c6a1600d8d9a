#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/base/date.h"
#include "core/base/month_year.h"
#include "core/base/result.h"
#include "core/cylinder/nameplate.h"
#include "core/cylinder/specification.h"
#include "core/quantity/mass.h"

namespace tarebook {

/// What a cylinder has held since its last retest; it decides whether a longer interval may be used.
enum class ServiceKind {
    general,  // anything, or not known
    recovery, // recovered refrigerant: water, acid, air, oil
    clean,    // only new or reclaimed noncorrosive gas free of corroding components, cylinder coated outside
    ammonia,  // only clean anhydrous ammonia, cylinder coated outside
};

/// `general`, `recovery`, `clean`, `ammonia`.
[[nodiscard]] std::string serviceWord(ServiceKind service);
/// Reads these words. Error: any other.
[[nodiscard]] Result<ServiceKind> parseService(std::string_view text);

/// The stamp of a retest.
struct TestMark {
    MonthYear month;
    bool yearOnly = false; // ADR 6.2.3.9.5: the month may be missing; `month` is then January of that year

    /// Reads a US or Canadian stamp, month first (`5-19`, `2019-05`), or, with `yearFirst`, a European one
    /// (`19/05`, `2019/05`, `2019`).
    [[nodiscard]] static Result<TestMark> parse(std::string_view text, bool yearFirst);
    bool operator==(const TestMark&) const = default;
};

/// The letter behind the date, as 49 CFR 180.213(f) has them: empty, `S`, `E`, `star` (also `*`), `+`, `R`,
/// `VE`, `AE`, `UE`, `EX`, `FS`. The plus sign is dropped, it tells nothing about the period. Error: any
/// other.
[[nodiscard]] Result<std::string> parseMarkSuffix(std::string_view text);

/// What has happened to a cylinder since its last retest that overrides every date.
struct CylinderCondition {
    bool damaged = false;             // dents, corrosion, cracks, abrasion, bulges, an accident
    bool leaking = false;             // through the wall or a fitting
    bool heatDamaged = false;         // fire, arc burn, known or visible overheating
    bool overPressurised = false;     // known or visible, as after overfilling and heat
    bool wallMetalRemoved = false;    // ground or sanded outside an authorised repair
    bool heldClass8Liquid = false;    // a corrosive liquid was in it
    bool ordered = false;             // an authority asked for the test
    bool rejected = false;            // failed a retest, may be repaired
    bool condemned = false;           // for ever
    std::optional<Mass> officialTare; // as marked
    std::optional<Mass> weighedTare;  // as weighed empty
    // Known from before the last test that it passed: a test does not mend what condemns for ever.
    bool heatDamagedBefore = false;
    bool overPressurisedBefore = false;

    bool operator==(const CylinderCondition&) const = default;
};

/// What the retest rules want to know.
struct RetestFacts {
    Specification specification;
    MonthYear manufactured;
    std::optional<MonthYear> lastTest; // none: only the manufacture date counts
    bool lastTestYearOnly = false;     // see TestMark
    std::string
        markSuffix; // as parseMarkSuffix gives it; of no account without a last test, but for the star
    ServiceKind service = ServiceKind::general;
    bool usedForRecoverySinceTest = false; // one such use ends a longer interval
    std::optional<Date> filledOn; // the last day on which anything was put in; none: empty, or not known
    std::optional<WaterCapacity> waterCapacity;
    CylinderCondition condition;
    Date on;                                    // the day the question is asked for
    std::optional<MonthYear> serviceUntil = {}; // last month of a fixed service life
    bool filledSomeDay = false;                 // something is inside, and the day is not known

    [[nodiscard]] bool isFilled() const { return filledOn.has_value() || filledSomeDay; }
};

} // namespace tarebook
