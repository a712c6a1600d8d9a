#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/base/result.h"
#include "core/quantity/mass.h"

namespace tarebook {

/// What one line from a scale says of the weight on it.
struct ScaleLine {
    enum class Rest { still, moving, unsaid };
    enum class Kind { gross, net, unsaid };

    Mass mass;        ///< may be negative: an unloaded scale that was set to zero under load
    std::string text; ///< number and unit as they were sent, without what stood around them: `61.8 lb`
    Rest rest = Rest::unsaid;
    Kind kind = Kind::unsaid;
};

/// Reads a line of plain ASCII as scales send it, continuously or when asked: words before the number (`ST`
/// or `S` still, `US`, `SD` or `D` moving, `GS` or `G` gross, `NT` or `N` net), parted by commas or blanks, a
/// sign, the number with a point, the unit (kg, g, lb, oz, or lb and oz), and perhaps such words, or `?` for
/// moving, once more. No standard holds for these words; these are in common use, from memory. `unit` is
/// taken where the scale sends none; grams are a small `g`. Error: overloaded (`OL`, `UL`, or a number of
/// dashes or plus signs), no number, no unit known, a word that is not one of these: what a scale says is not
/// guessed at.
[[nodiscard]] Result<ScaleLine> parseScaleLine(std::string_view line, std::string_view unit = {});

} // namespace tarebook
