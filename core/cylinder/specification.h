#pragma once

#include <string>

#include "core/base/result.h"
#include "core/quantity/pressure.h"

namespace tarebook {

/// The specification stamped on a cylinder: `DOT-4BA400` is authority DOT, type 4BA, service pressure 400
/// psig; `UN ISO 22991 PH 42` is authority UN, type ISO22991, test pressure 42 bar.
struct Specification {
    std::string authority; // DOT, TC, UN (with the UN packaging symbol) or EN (ADR mark without it)
    std::string type;      // 3A, 3AA, 4BA, 39, ...; TC metric marks keep their M: 4BAM; standards: EN13322-1
    int servicePressure = 0; // as marked: psig for DOT, bar for TC metric marks; 0 where none is marked
    bool pressureInBar = false;
    std::string suffix;         // ET or X where it stands behind the pressure, as in 4B240ET
    int testPressureBar = 0;    // PH of UN and EN marks, gauge; 0 for others
    int workingPressureBar = 0; // PW of UN and EN marks where it is stamped (compressed gases)

    /// A DOT-39 cylinder is made for one filling (the warning in its marking, 49 CFR 178.65(i)(2)(viii)); so
    /// is a UN receptacle marked NR or built to ISO 11118, both read as type NR.
    [[nodiscard]] bool refillable() const { return type != "39" && type != "NR"; }
    /// True for UN and EN marks, which are judged by test pressure.
    [[nodiscard]] bool metricTestMark() const { return authority == "UN" || authority == "EN"; }
    /// 5/4 of the marked service pressure, the most that the contents may reach at 55 degC (131 degF):
    /// 49 CFR 173.301(a)(8). In the unit of the mark, gauge; 0 where none is marked.
    [[nodiscard]] double pressureLimitAt55() const { return 1.25 * servicePressure; }
    /// The marked service pressure; 1800 psig for 3 and 3E without a mark (49 CFR 173.301a(b)); zero where
    /// there is none.
    [[nodiscard]] GaugePressure markedPressure() const;
    /// The DOT type that a TC metric type corresponds to (table of 49 CFR 171.12(a)(4)(iii)): 4BAM is 4BA,
    /// 3ANM is 3BN; others as they are.
    [[nodiscard]] std::string dotType() const;

    /// Reads `DOT-4BA400`, `dot 4bw 400`, `DOT-39`, `DOT-3`, `TC-4BAM28`, `UN ISO 22991 PH 42`, `EN 13322-1
    /// PH42 BAR`, `pi EN 14638-1 PH48`, `UN NR PH 48`. Error: an unknown type names the nearest known one; a
    /// missing or absurd pressure says where it stands in the mark.
    [[nodiscard]] static Result<Specification> parse(std::string_view text);
    /// The mark as stamped; parse() reads it back: `DOT-4BA400`, `EN EN13322-1 PH42`.
    [[nodiscard]] std::string text() const;
    bool operator==(const Specification&) const = default;
};

/// Specification::parse for the marks of UN and EN receptacles, which bear PH, the test pressure in bar.
[[nodiscard]] Result<Specification> parseTestPressureMark(std::string_view text);

} // namespace tarebook
