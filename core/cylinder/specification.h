#pragma once

#include <string>
#include <string_view>

#include "core/base/result.h"

namespace tarebook {

/// The specification stamped on a cylinder: `DOT-4BA400` is authority DOT, type 4BA, service pressure 400
/// psig.
struct Specification {
    std::string authority;   // DOT or TC
    std::string type;        // 3A, 3AA, 4BA, 39, ...; TC metric marks keep their M: 4BAM
    int servicePressure = 0; // as marked: psig for DOT, bar for TC metric marks; 0 where none is marked
    bool pressureInBar = false;
    std::string suffix; // ET or X where it stands behind the pressure, as in 4B240ET

    /// A DOT-39 cylinder is made for one filling (the warning in its marking, 49 CFR 178.65(i)(2)(viii)).
    [[nodiscard]] bool refillable() const { return type != "39"; }
    /// 5/4 of the marked service pressure, the most that the contents may reach at 55 degC (131 degF):
    /// 49 CFR 173.301(a)(8). In the unit of the mark, gauge; 0 where none is marked.
    [[nodiscard]] double pressureLimitAt55() const { return 1.25 * servicePressure; }

    /// Reads `DOT-4BA400`, `dot 4bw 400`, `DOT-39`, `TC-4BAM28`. Error: an unknown type names the nearest
    /// known one; a missing or absurd service pressure says where it stands in the mark.
    [[nodiscard]] static Result<Specification> parse(std::string_view text);
    /// The mark as stamped; parse() reads it back: `DOT-4BA400`.
    [[nodiscard]] std::string text() const;
    bool operator==(const Specification&) const = default;
};

} // namespace tarebook
